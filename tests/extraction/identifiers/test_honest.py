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
    # The days on which March and April 2024 begin, as a spreadsheet counts days.
    ("Month of stent", [45352, 45383]),
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
    ("Postcode known", ["yes", "no"]),
    ("NHS-funded", ["Y", "N", "not known"]),
    ("Next of kin informed", ["yes", "no", None]),
    ("Initial success", ["complete", "partial", "none"]),
    ("Op", ["Hartmann's", "AR", "LAR", "TME"]),
    ("Patient position", ["left lateral", "supine", "prone"]),
    (
        "Presenting",
        [
            "Acute obstruction",
            "Sub acute",
            "Complete obstruction",
            "Incomplete",
            "Vomiting, pain",
            "Peritonism",
            "Constipation 5/7",
            "Incidental CT finding",
        ],
    ),
    (
        "Indication",
        [
            "Malignant LBO",
            "Extrinsic compression",
            "Benign stricture",
            "Anastomotic leak",
            "Fistula",
            "Colovesical fistula",
        ],
    ),
    (
        "Primary",
        [
            "Colorectal",
            "Ovarian",
            "Bladder",
            "Prostate",
            "Pancreas",
            "Gastric",
            "Breast",
            "Endometrial",
            "Cervical",
            "Unknown primary",
            "Lymphoma",
            "Melanoma",
        ],
    ),
    (
        "Comorbidity",
        [
            "IHD, COPD",
            "T2DM",
            "AF on apixaban",
            "CKD 3",
            "Parkinson's",
            "Alzheimer's",
            "HTN",
            "Hypothyroid",
            "Nil",
            "Previous CVA",
            "Asthma",
            "Crohn's",
        ],
    ),
    (
        "Drug",
        [
            "apixaban",
            "warfarin",
            "clopidogrel",
            "bevacizumab",
            "none",
            "aspirin",
            "rivaroxaban",
            "dalteparin",
            "edoxaban",
            "ticagrelor",
        ],
    ),
    ("Diagnosed by", ["CT", "CT", "MRI", "endoscopy", "AXR"]),
    ("Referred by", ["A&E", "GP", "Medics", "oncology", "ED", "AMU"]),
    (
        "Complication",
        [
            "Perf",
            "Migration",
            "Tumour ingrowth",
            "Bleeding",
            "Tenesmus",
            "Pain",
            "Stent fracture",
            "Stool impaction",
            "None",
        ],
    ),
    (
        "Surgery",
        [
            "Hartmann's",
            "Right hemi",
            "AR",
            "APER",
            "Subtotal colectomy",
            "Ext R hemi",
            "LAR",
            "TME",
            "Sigmoid colectomy",
            "TAMIS",
        ],
    ),
    ("Chemo", ["FOLFOX", "CAPOX", "5-FU", "Cetuximab", "FOLFIRI", "none"]),
    (
        "Comment",
        [
            "Difficult angulation",
            "Wire crossed easily",
            "Two stents overlapped",
            "Poor prep",
            "Agitated patient",
            "Terminal care",
            "Well palliated",
            "Bowel opened day 1",
            "Stent expanded well",
            "Tight stricture",
            "Slow expansion",
            "Patient declined surgery",
        ],
    ),
    ("Stent", ["Corvane 22/9", "Tullo 24 x 120", "Velm C", "Ostra D", "Hexlo"]),
    ("Stent type", ["WF Uncov 25x90", "WF 22x60", "EV 24", "NT 30 x 100", "HS 24x80"]),
    ("Lot", ["12345", "23456", "88213", "77123"]),
    ("Sex", ["M", "F", "m", "f"]),
    ("Outcome at 30d", ["A", "D", "alive", "RIP", "d/c home", "NH", "hospice"]),
    (
        "Discharge destination",
        ["Own home", "Nursing home", "Hospice", "Died in hospital", "Rehab", "Community hospital"],
    ),
    (
        "Reason",
        [
            "Tortuous sigmoid",
            "Complete occlusion",
            "Looping",
            "Fixed angulation",
            "No view",
            "Equipment failure",
        ],
    ),
    ("Ward", ["Ash", "Birch", "Cedar", "Ward 12", "SAU", "ITU"]),
    ("Hospital", ["Hollowmere", "Marrowdale", "Thornbeck", "Hollowmere"]),
    ("Size", ["25/90", "22 x 60", "10cm", "6-9 cm", "30/25 x 100"]),
    ("Time to surgery", ["14d", "2/52", "3/12", "10-14 days"]),
    ("Follow up", ["3/12", "6m", "12 months", "lost at 2/12"]),
    ("Date", ["Jan-24", "Feb-24", "Mar-24"]),
    ("Consultant present", ["Y", "N"]),
    ("Nodes", ["4/22", "0/12", "2/18"]),
    ("CEA", [12.4, "<5", 1250, "3.2"]),
    ("Anaesthesia", ["GA", "Sedation", "None", "Midazolam 2mg", "Entonox", "GA + LMA"]),
    ("Access", ["Flexi sig", "Colonoscopy", "Fluoro only", "Both"]),
    ("Fluoroscopy time", ["4:20", "12:05", "3.5 min"]),
    ("KPS", [80, 70, 90]),
    (
        "Histology",
        ["Mod diff adenoca", "Poorly differentiated", "Mucinous", "Signet ring", "Adenoca", "HGD"],
    ),
    (
        "Cause of death",
        ["Sepsis", "Cancer progression", "MI", "Pneumonia", "PE", "Perforation, sepsis"],
    ),
    ("Data quality", ["Good", "ok", "query notes missing"]),
    ("Audit cycle", ["1", "2", "re-audit"]),
    ("Stent diameter", ["22mm", "24 mm"]),
    ("Nurse present", ["2", "1"]),
    ("Seen by", ["oncology", "stoma nurse", "dietitian", "palliative care", "both"]),
    (
        "Note",
        [
            "CT on admission showed caecum 11 cm",
            "2nd stent day 3",
            "Day 3 leak, returned to theatre, Hartmann",
            "Palliative team aware, to rectum 12 cm",
            "pt wanted no surgery",
            "Hx of AF. On DOAC.",
            "Rectal tumour at 5-6 cm, not suitable",
            "BP drop, given 2 L fluid",
            "Reviewed by ITU outreach",
            "Sent to tertiary centre Hollowmere for TME",
            "Hb 82 transfused 2 units",
            "Discharged on day 4. Readmitted day 9 with pain",
            "5 of 6 stents OK",
            "colonoscopy by trainee, supervised",
            "done by Consultant",
            "Done by SpR",
            "told by GP",
            "8 mm x 10 mm, tumour 3-4-5 cm?",
            "Informed consent",
            "under Gastro team",
        ],
    ),
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
