"""What a row's result may be regressed on, and which rows have it."""

from pathlib import Path

import pytest

from evsyn.cells.cell import Question
from evsyn.cells.covariate_rows import covariate_rows
from evsyn.cells.covariates import Kind, covariates_of, value_of
from evsyn.cells.table import cell_table
from evsyn.extraction.load import read_review

STUDIES = Path(__file__).parents[2] / "studies"
DEMO = read_review(STUDIES / "demo")
WORDS = covariates_of(DEMO.plan)


def row(study, outcome="perforation"):
    (found,) = (c for c in cell_table(DEMO, Question(outcome)).cells if c.study == study)
    return found


@pytest.mark.parametrize(
    ("word", "value"),
    [
        ("year", 2014.0),
        # From the start of January 2009 to the end of June 2013, as the extract says.
        ("recruited", 2009 + 4.5 / 2),
        ("size", 111.0),
        ("intent", "palliation"),
        ("era", "from_2008"),
        ("operator", "gastroenterologist"),
        ("stricture_length", 6.1),
        ("covering", None),  # mixed
        ("recruitment", None),  # not told
    ],
)
def test_each_word_is_read_from_the_extract(word, value):
    assert value_of(DEMO, WORDS[word], row("2014-tansy")) == value


def test_text_is_neither_a_number_nor_a_level():
    plan = read_review(STUDIES / "published").plan
    assert "operator" in plan.characteristics.study
    assert "operator" not in covariates_of(plan)
    assert covariates_of(plan)["guidance"].kind is Kind.OF_STUDY


def test_rows_are_those_of_the_pool_and_each_other_study_is_listed():
    found = covariate_rows(DEMO, "perforation", [WORDS["recruited"]])
    pooled = cell_table(DEMO, Question("perforation")).cells
    assert len(found.rows) + len(found.without) == len(pooled)
    assert {one.study for one in found.without} == {
        cell.study for cell in pooled if DEMO.study(cell.study).setting.recruited is None
    }
    assert all(one.words == ("recruited",) for one in found.without)


def test_a_stratum_gives_a_study_a_row_at_each_of_its_levels():
    found = covariate_rows(DEMO, "perforation", [WORDS["intent"]])
    cells = [
        cell_table(DEMO, Question("perforation", "intent", level)).cells
        for level in ("palliation", "bridge_to_surgery")
    ]
    assert [one.cell for one in found.rows] == [*cells[0], *cells[1]]
    assert [one.values for one in found.rows[:1]] == [("palliation",)]


def test_levels_with_fewer_than_three_rows_take_no_part():
    found = covariate_rows(DEMO, "perforation", [WORDS["recruitment"]])
    assert found.short == (("recruitment", "selected", 1),)
    assert {one.values for one in found.rows} == {("consecutive",)}
