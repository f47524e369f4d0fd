"""What an honest log holds is not refused."""

from datetime import date, datetime, time

import pytest

from tests.extraction.identifiers.sheets import AROUND, found_in

MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"]
HONEST = [
    ("Ref", range(1, 41)),
    ("Ref", [f"C{number:02d}" for number in range(1, 37)]),
    ("Ref", [f"2024-{number:03d}" for number in range(1, 41)]),
    ("Ref", [f"2024{number:03d}" for number in range(1, 41)]),
    ("ID", [f"CS{number}" for number in range(1, 41)]),
    ("ID", [f"CO{number}" for number in range(1, 41)]),
    ("ID", [float(number) for number in range(1, 41)]),
    ("Patient", range(1, 41)),
    ("Patient ID", [f"P{number:03d}" for number in range(1, 41)]),
    ("Month", ["Mar 2024", "March 2024", "Sept 2024"] * 12),
    ("Month", [f"{month} 24" for month in MONTHS]),
    ("Month", [f"{month}-24" for month in MONTHS]),
    ("Month", ["03/2024", "3.2024", "2024/03", "202403", "03/24"]),
    ("Month", ["202401", "202402", "202403", "202307", "202212", "202111", "202001"]),
    ("Month", [datetime(2024, month, 1) for month in range(1, 13)]),
    ("Month", [date(2024, month, 1) for month in range(1, 13)]),
    ("Month", MONTHS),
    ("Year", [2024] * 40),
    ("Year", ["2023-24", "2023/24", "2023-2024", "2024"]),
    ("Quarter", ["Q1 2024", "2024 Q2", "Q3/24"]),
    ("Age", range(51, 91)),
    ("Age band", ["60-69", "70-79", "80+", "under 60", ">= 80"]),
    ("Operator", ["Surgeon", "SURGEON", "gastroenterologist", "GI team", "gi_team", "unknown"]),
    ("Operator", ["surgeon and gastroenterologist", "surgeon + GI team", "surgeon/gi-team", None]),
    ("Surgeon present", ["yes", "no", "not known"]),
    ("Operator grade", ["ST5", "ST7", "consultant", "SpR"]),
    ("Operator experience (cases)", [12, 55, 140]),
    ("Site", ["sigmoid", "Descending", "splenic flexure", "Transverse", "caecum", "Rectosigmoid"]),
    ("Site", ["Sigmoid, descending", "Sigmoid colon", "Hepatic flexure", "Upper rectum"] * 10),
    ("Size", ["9 x 25", "12 x 25 mm", "22x90", "24/28 x 80"]),
    ("Stage", ["T3 N1 M0", "T4 N2 M1", "T4a N0 M0", "pT3N1b", "T2 N0 Mx"]),
    ("N stage", ["N0", "N1", "N2", "N1", "N0"]),
    ("Dukes", ["A", "B", "C1", "C2", "D"]),
    ("Grade", ["G1", "G2", "G3", "Grade 1", "Grade A"]),
    ("ASA", ["ASA 3", "ASA III", "2", "IV", "3E"]),
    ("Clavien", ["I", "II", "IIIa", "IIIb", "IVa", "Clavien-Dindo II"]),
    ("Duration (min)", [35, 40.5, "45 min", "1 h 20", time(1, 20)]),
    ("Length", [4.5, 6.0, 3.25, "4.5", "4,5 cm", 0.123456789, "0.3333333333"]),
    ("Share", ["45%", "12.5 %", 0.45]),
    ("Perforation", ["yes", "no", "unknown", "Y", "N", True, False, ""]),
    ("Days to surgery", [12, 15, 9, 30]),
    ("Device", ["uncovered", "Uncovered metal stent", "through the scope", "covered 22 mm"]),
    ("Device", ["Corvane Flex", "Corvane Flex", "Tullo Wide", "Tullo Wide"] * 10),
    ("Device name", ["Corvane Flex", "Corvane Flex", "Tullo Wide", "Tullo Wide"] * 10),
    ("Presenting", ["Acute obstruction", "Sub acute", "Large bowel obstruction", "Peritonitis"]),
    ("Outcome", ["Alive", "Dead", "Alive with stent", "Died of disease", "Lost to follow up"]),
    ("Hospital", ["Hollowmere General", "St Mary's Hospital", "Marrowdale Infirmary"] * 3),
    ("Intent", ["bridge", "palliation", "Bridge to surgery", "Palliative"]),
    ("Imaging", ["CT", "MRI", "MR enterography", "CT + contrast", "MR pelvis", "AXR"]),
    ("Cost", [1250, 1310.5, 45120]),
    ("Dose", ["5 mg/kg", "10 mg", "2 mg at 4 h"]),
    ("Haemoglobin", [101, 98, 134]),
    ("Score", ["3/5", "12/24", "7/10"]),
    ("Time", ["09:12", "23:40:00", time(9, 12)]),
    ("Number", [45368, 45369, 45377]),
    ("Gastroenterologist free text", ["yes"]),
    (
        "Note",
        [
            "migrated on day 6",
            "perforation at the flexure, Hartmann's procedure",
            "stent 9 cm still in place, 2 cm from the anal verge",
            "may need second stent; 1 may have leaked",
            "re-stented after 14 days",
            "Failed to cross. Taken to theatre.",
            "seen by the surgical team and by MDT",
            "under general anaesthetic",
            "discussed with family, supervised by consultant",
            "Lost to follow-up after 3 months (moved away)",
            "free air on CT: laparotomy, no faecal soiling",
            "Stent Migrated Distally On Day Six",
            "CRP 212, lactate 3.4, WCC 18.2",
            "T3 N1, 4 of 22 nodes",
            "ECOG 2; ASA 3 - not fit for resection",
            "INR 1.2, BP 120/70, HR 98",
            "transferred from another hospital",
            "died at 30 days of pneumonia",
        ],
    ),
]


@pytest.mark.parametrize(("heading", "values"), HONEST)
def test_honest_columns_are_taken(heading, values):
    assert found_in({**AROUND, heading: list(values)}) == ()


@pytest.mark.parametrize(("heading", "values"), HONEST)
def test_honest_columns_are_taken_of_a_log_of_five(heading, values):
    assert found_in({heading: list(values)[:5]}) == ()


def test_without_roles_in_the_plan_the_common_words_of_roles_are_taken():
    roles = ["Surgeon", "consultant radiologist", "nurse endoscopist", "trainee + consultant"]
    assert found_in({"Operator": roles}, roles={}) == ()
    assert found_in({"Operator": [*roles, "GI team"]}, roles={})


def test_with_roles_in_the_plan_only_these_are_taken():
    (found,) = found_in({"Operator": ["surgeon", "registrar"]})
    assert "surgeon, gastroenterologist, gi_team" in found.cure
    assert "registrar" not in found.message


def test_there_are_enough_of_them():
    assert len(HONEST) >= 28
