"""Two arms from extract to sentence, held to a published comparison.

Counts and result: Sun R, et al. Medicine 2019;98:e14713, figure 3 (nausea and vomiting after
breast surgery): risk ratio 0.56 (0.43 to 0.72), seven trials.
"""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from evsyn.cells.comparison import comparison_table
from evsyn.cli import cli
from evsyn.extraction.load import read_review
from evsyn.extraction.review import Review
from evsyn.pooling.compared import Contrasted
from evsyn.pooling.review import answer_comparisons

TRIALS = {
    "alcaraz2014": (19, 53, 31, 49),
    "gu2009": (10, 29, 20, 30),
    "hu2014": (2, 30, 5, 30),
    "kim2004": (11, 33, 22, 33),
    "lin2015": (9, 30, 10, 30),
    "wang2017": (4, 34, 7, 34),
    "yu2010": (1, 30, 5, 30),
}
PLAN = """\
format: 1
review: ponv
title: Nausea after breast surgery
question: Does stimulation prevent nausea and vomiting?
fixed_on: 2026-01-05
search: none
denominators: {allocated: patients allocated}
treatments: {stimulation: stimulation, control: control}
comparisons:
  stimulation_against_control:
    label: Stimulation against control
    first: stimulation
    second: control
outcomes:
  nausea:
    label: Nausea or vomiting
    event: nausea or vomiting
    events: patients with nausea or vomiting
    better: fewer
    denominators: [allocated]
    assumed_risks: [0.3]
"""
TRIAL = """\
format: 1
study: {name}
citation: {{title: A trial, doi: 10.1097/MD.0000000000014713}}
extracted: {{by: AB, on: 2026-01-06, from: second_hand}}
arms:
  - arm: first
    treatment: stimulation
    covers: whole_study
    patients: {n1}
    outcomes:
      nausea: {{events: {x1}, total: {n1}, of: allocated, at: Fig 3, second_hand: true}}
  - arm: second
    treatment: control
    covers: whole_study
    patients: {n2}
    outcomes:
      nausea: {{events: {x2}, total: {n2}, of: allocated, at: Fig 3}}
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "review.yaml").write_text(PLAN, encoding="utf-8")
    for name, (x1, n1, x2, n2) in TRIALS.items():
        text = TRIAL.format(name=name, x1=x1, n1=n1, x2=x2, n2=n2)
        (tmp_path / f"{name}.yaml").write_text(text, encoding="utf-8")
    return tmp_path


@pytest.fixture
def review(folder: Path) -> Review:
    return read_review(folder)


def said(*words: object) -> str:
    result = CliRunner().invoke(cli, [str(word) for word in words])
    assert result.exit_code == 0, result.output
    return " ".join(result.output.split())


def test_the_printed_result_comes_out(review: Review, printed) -> None:
    (answer,) = answer_comparisons(review, ["nausea"])
    row = answer.rows[Contrasted.HEADLINE]
    assert row.estimate == printed("0.56")
    assert row.low == printed("0.43")
    assert row.high == printed("0.72")
    assert row.q == pytest.approx(2.93, abs=0.01)


def test_text_reads_the_restricted_ml_row_and_names_the_headline(folder: Path) -> None:
    text = said("pool", folder, "nausea")
    assert "Nausea or vomiting: Stimulation against control" in text
    assert "by Restricted ML, floored Hartung-Knapp" in text
    assert "DerSimonian-Laird, which most papers use, gives risk ratio 0.56 (0.43 to 0.72)" in text
    assert "Where 30.0% have it under control (assumed)" in text


def test_json_carries_both_sides_and_their_sources(folder: Path) -> None:
    found = json.loads(said("pool", folder, "nausea", "--json"))
    (compared,) = found["comparisons"]
    assert compared["k"] == 7
    first = compared["studies"][0]
    assert (first["events_1"], first["total_1"]) in {(x, n) for x, n, _, _ in TRIALS.values()}
    assert len(first["sources"]) == 2
    assert "read second hand" in first["marks"]


def test_shares_are_pooled_over_the_first_treatment_alone(folder: Path) -> None:
    found = json.loads(said("pool", folder, "nausea", "--json"))
    (overall,) = [a for a in found["answers"] if a["key"] == "nausea/overall"]
    assert overall["events"] == sum(x for x, _, _, _ in TRIALS.values())
    assert overall["total"] == sum(n for _, n, _, _ in TRIALS.values())


def test_a_side_that_stands_alone_is_left_out_with_the_reason(folder: Path) -> None:
    path = folder / "gu2009.yaml"
    text = path.read_text(encoding="utf-8")
    path.write_text(text[: text.rindex("    outcomes:")], encoding="utf-8")
    table = comparison_table(read_review(folder), "stimulation_against_control", "nausea")
    assert len(table.cells) == 6
    assert [(item.study, item.reason) for item in table.left_out] == [
        ("gu2009", "no count under control")
    ]


def test_sides_in_different_windows_are_not_compared(folder: Path) -> None:
    plan = PLAN.replace(
        "treatments:", "windows: {day: {label: within a day, days: 1}}\ntreatments:"
    )
    plan += "    windows: [day]\n"
    (folder / "review.yaml").write_text(plan, encoding="utf-8")
    path = folder / "gu2009.yaml"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("second_hand: true", "window: day", 1), encoding="utf-8")
    table = comparison_table(read_review(folder), "stimulation_against_control", "nausea")
    assert {item.reason for item in table.left_out} == {
        "the two treatments are counted in different windows"
    }


def test_an_arm_without_a_treatment_is_a_fault_where_the_plan_lists_them(folder: Path) -> None:
    path = folder / "gu2009.yaml"
    text = path.read_text(encoding="utf-8").replace("    treatment: control\n", "", 1)
    path.write_text(text, encoding="utf-8")
    messages = [fault.message for fault in read_review(folder).faults]
    assert any("names no treatment" in message for message in messages)


def test_two_studies_are_shown_and_not_pooled(folder: Path) -> None:
    for name in list(TRIALS)[2:]:
        (folder / f"{name}.yaml").unlink()
    (answer,) = answer_comparisons(read_review(folder), ["nausea"])
    assert answer.rows == {}
    assert len(answer.effects) == 2
    assert "fewer than three are shown and not pooled" in said("pool", folder, "nausea")
