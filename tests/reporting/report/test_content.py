"""One content for every product of a report."""

from pathlib import Path

import pytest

from evsyn.cells.cell import Question
from evsyn.extraction.load import read_review, read_unit
from evsyn.pooling.review import answer_questions
from evsyn.reporting.report.content import report_content
from evsyn.terms import Audience

DEMO = Path(__file__).parents[3] / "studies" / "demo"
REVIEW = read_review(DEMO)
UNIT = read_unit(DEMO / "unit-hollowmere.yaml", REVIEW.plan)
CONTENT = report_content(REVIEW)


def test_every_outcome_stands_in_the_plans_order():
    assert [item.name for item in CONTENT.outcomes] == list(REVIEW.plan.outcomes)


def test_an_answer_is_the_one_of_a_fresh_pool():
    item = CONTENT.outcomes[0].strata[1].answers[0]
    fresh = answer_questions(REVIEW, [item.question])[item.question]
    assert item.question == Question("perforation", "intent", "palliation")
    assert item.pooled.answer.reading.pooled == fresh.answer.reading.pooled


def test_every_study_is_a_reference_with_its_number():
    assert [item.number for item in CONTENT.references] == list(range(1, 31))
    assert {item.study for item in CONTENT.references} == {s.study for s in REVIEW.studies}


def test_a_units_part_is_for_someone():
    with pytest.raises(ValueError, match="for whom"):
        report_content(REVIEW, UNIT)
    made = report_content(REVIEW, UNIT, Audience.INSIDE)
    assert made.unit.audit.unit is UNIT.unit
    assert made.invented
