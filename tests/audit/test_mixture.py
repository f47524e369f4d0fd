"""The list of rates a page sums over, against the engine and against scipy."""

from pathlib import Path

import numpy as np
import pytest
from scipy import stats

from evsyn.audit.comparison import compare
from evsyn.audit.mixture import MOST_LISTED, mixture
from evsyn.audit.predictive import predictive
from evsyn.audit.verdict import limits
from evsyn.extraction.load import read_review
from evsyn.pooling.answer import Show
from evsyn.pooling.review import answer_questions, questions
from evsyn.terms import Better

DEMO = Path(__file__).parents[2] / "studies" / "demo"
REVIEW = read_review(DEMO)
ANSWERS = {q.key: p.answer for q, p in answer_questions(REVIEW, questions(REVIEW.plan)).items()}
LISTED = {key: answer for key, answer in ANSWERS.items() if mixture(answer) is not None}


def test_every_pool_with_a_row_to_read_has_a_list_and_no_other():
    read = {key for key, answer in ANSWERS.items() if answer.reading is not None}
    assert set(LISTED) == read
    assert any(answer.show is Show.FEW for answer in LISTED.values())


@pytest.mark.parametrize("key", LISTED)
def test_tails_agree_with_the_engine_to_four_digits(key):
    answer = LISTED[key]
    listed, units = mixture(answer), predictive(answer.reading, answer.k)
    for cases in (1, 2, 13, 29, 64, 111, 237, MOST_LISTED):
        short, full = np.cumsum(listed.pmf(cases)), np.cumsum(units.pmf(cases))
        assert np.max(np.abs(short - full)) < 5e-6
        short, full = limits(listed.pmf(cases)), limits(units.pmf(cases))
        assert (short.low, short.high) == (full.low, full.high)


def test_the_sum_of_binomials_is_the_one_scipy_gives():
    listed = mixture(LISTED["perforation/intent=palliation"])
    rates = 1 / (1 + np.exp(-np.array(listed.log_odds)))
    for events in (0, 3, 8, 40):
        chance = np.sum(np.array(listed.weights) * stats.binom.pmf(events, 40, rates))
        assert listed.pmf(40)[events] == pytest.approx(chance, abs=1e-12)


def test_the_marks_are_those_of_a_comparison():
    for answer in LISTED.values():
        listed = mixture(answer)
        made = compare(3, 40, answer, better=Better.FEWER, years=1)
        assert listed.used_larger_spread is made.used_larger_spread
        assert listed.k == answer.k
        assert listed.has_enough_studies is (answer.k >= 5)
        assert made.expected_count == pytest.approx(40 * listed.mean)
    assert any(mixture(answer).used_larger_spread for answer in LISTED.values())
