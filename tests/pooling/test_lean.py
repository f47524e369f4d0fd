"""What a pool would be without each study, against reviews that lack it."""

from dataclasses import replace
from pathlib import Path

import pytest

from evsyn.cells.cell import Question
from evsyn.extraction.load import read_review
from evsyn.pooling.lean import leaning_of
from evsyn.pooling.review import answer_questions

DEMO = read_review(Path(__file__).parents[2] / "studies" / "demo")


def leaning(question, review=DEMO):
    return leaning_of(review, answer_questions(review, [question])[question])


@pytest.mark.parametrize("outcome", ["perforation", "migration"])
def test_each_row_is_the_pool_of_a_review_without_the_study(outcome):
    question = Question(outcome, "intent", "palliation")
    found = leaning(question)
    assert len(found.studies) == found.base.answer.k
    for one in found.studies[::3]:
        left = tuple(study for study in DEMO.studies if study.study != one.row.study)
        fresh = answer_questions(replace(DEMO, studies=left), [question])[question].answer
        assert one.without.answer.events == fresh.events
        row, other = one.without.answer.reading.pooled, fresh.reading.pooled
        assert (row.estimate, row.low, row.high) == (other.estimate, other.low, other.high)
        assert one.shift == row.estimate - found.base.answer.reading.pooled.estimate


def test_weights_are_those_of_the_headline_row():
    found = leaning(Question("perforation"))
    head = found.base.answer.rows["headline"]
    assert [one.weight for one in found.studies] == pytest.approx(head.weights)
    assert sum(one.weight for one in found.studies) == pytest.approx(1)


def test_who_shares_patients_comes_in():
    found = leaning(Question("perforation"))
    comes_in = {one.row.label: one.comes_in for one in found.studies if one.comes_in}
    assert comes_in == {"Sorrel 2013": ("Nettle 2010",)}


def test_what_is_not_pooled_leans_on_nothing():
    assert leaning(Question("reobstruction")).studies == ()
