"""The pool of the papers up to a year, against reviews that end there."""

from dataclasses import replace
from pathlib import Path

import pytest

from evsyn.cells.cell import Question
from evsyn.extraction.load import read_review
from evsyn.pooling.over_time import grown_over_time
from evsyn.pooling.review import answer_questions

STUDIES = Path(__file__).parents[2] / "studies"
DEMO, PUBLISHED = read_review(STUDIES / "demo"), read_review(STUDIES / "published")


def steps_of(review, question):
    return grown_over_time(review, answer_questions(review, [question])[question])


@pytest.mark.parametrize("year", [2001, 2017])
def test_each_line_is_the_pool_of_a_review_that_ends_there(year):
    """In these years no study waits for a later one that it gives way to."""
    question = Question("technical_success")
    (step,) = (one for one in steps_of(DEMO, question) if one.year == year)
    early = tuple(one for one in DEMO.studies if one.citation.year <= year)
    fresh = answer_questions(replace(DEMO, studies=early), [question])[question].answer
    assert sorted(step.pooled.answer.events) == sorted(fresh.events)
    row, other = step.pooled.answer.reading.pooled, fresh.reading.pooled
    assert (row.estimate, row.low, row.high) == pytest.approx(
        (other.estimate, other.low, other.high), rel=1e-9
    )


def test_the_last_line_is_the_pool_as_it_stands():
    question = Question("migration")
    base = answer_questions(PUBLISHED, [question])[question]
    steps = grown_over_time(PUBLISHED, base)
    assert steps[-1].year is None  # papers without a year come in last
    assert steps[-1].pooled.answer.events == base.answer.events
    assert steps[-1].pooled.answer.reading.pooled.estimate == pytest.approx(
        base.answer.reading.pooled.estimate
    )
    assert sum(len(step.new) for step in steps) == base.answer.k
    assert [step.year for step in steps[:-1]] == sorted(step.year for step in steps[:-1])


def test_what_is_not_pooled_has_not_grown():
    assert steps_of(DEMO, Question("reobstruction")) == ()
