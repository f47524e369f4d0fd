"""Verdicts come from inclusive tails of 2.5% a side, and from nothing else."""

import itertools

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from evsyn.audit.predictive import student
from evsyn.audit.verdict import TAIL, Verdict, limits, tails, verdict, verdict_at
from evsyn.pooling.answer import Centre
from evsyn.terms import Better
from tests.audit.made_up import MU

WORKED = student(Centre(MU, 0.12, 0.6), 30)

pmfs = st.builds(
    lambda mu, se, tau, k, cases: student(Centre(mu, se, tau), k).pmf(cases),
    mu=st.floats(-5, 5),
    se=st.floats(0.02, 1.0),
    tau=st.floats(0, 2),
    k=st.integers(3, 40),
    cases=st.integers(1, 100),
)


# Own computation, no printed source: central counts at 7.4%, tau .6, se .12, 30 studies.
@pytest.mark.parametrize(
    ("cases", "low", "high", "first_more"), [(20, 0, 6, 7), (40, 0, 10, 11), (100, 1, 23, 24)]
)
def test_worked_ranges(cases, low, high, first_more):
    reach = limits(WORKED.pmf(cases))
    assert (reach.low, reach.high, reach.first_more) == (low, high, first_more)


# Own computation, no printed source: a fixed rate would give much narrower ranges.
@pytest.mark.parametrize(("cases", "low", "high"), [(20, 0, 4), (40, 0, 7), (100, 3, 13)])
def test_worked_binomial_ranges(cases, low, high):
    reach = limits(stats.binom.pmf(np.arange(cases + 1), cases, 0.074))
    assert (reach.low, reach.high) == (low, high)


def test_few_cases_speak():
    pmf = WORKED.pmf(8)
    assert verdict(pmf, 4) is Verdict.MORE
    assert verdict(pmf, 3) is Verdict.WITHIN
    assert limits(pmf).last_fewer is None


def test_none_of_a_hundred_is_fewer():
    reach = limits(WORKED.pmf(100))
    assert verdict(WORKED.pmf(100), 0) is Verdict.FEWER
    assert reach.last_fewer == 0
    assert reach.chance_fewer == pytest.approx(WORKED.pmf(100)[0])


def test_tails_agree_with_scipy():
    found = tails(stats.binom.pmf(np.arange(31), 30, 0.2), 9)
    assert found.tail_at_least == pytest.approx(stats.binom.sf(8, 30, 0.2))
    assert found.tail_at_most == pytest.approx(stats.binom.cdf(9, 30, 0.2))
    half = stats.binom.pmf(9, 30, 0.2) / 2
    assert found.tail_mid_p_at_least == pytest.approx(stats.binom.sf(9, 30, 0.2) + half)
    assert found.tail_mid_p_at_most == pytest.approx(stats.binom.cdf(8, 30, 0.2) + half)
    assert found.tail_doubled == pytest.approx(2 * found.tail_mid_p_at_least)
    assert found.centile == found.tail_mid_p_at_most


@given(pmfs)
def test_at_most_a_fortieth_a_side_is_called_unusual(pmf):
    told = [verdict(pmf, events) for events in range(pmf.size)]
    for side in (Verdict.MORE, Verdict.FEWER):
        chance = pmf[[one is side for one in told]].sum()
        assert chance <= TAIL + 1e-12
    reach = limits(pmf)
    assert reach.chance_more <= TAIL
    assert reach.chance_fewer <= TAIL
    assert 0 <= reach.low <= reach.high < pmf.size
    assert pmf[reach.low : reach.high + 1].sum() >= 1 - 2 * TAIL - 1e-9


@given(pmfs, st.data())
def test_counting_non_events_mirrors_the_verdict(pmf, data):
    events = data.draw(st.integers(0, pmf.size - 1))
    mirror = {Verdict.MORE: Verdict.FEWER, Verdict.FEWER: Verdict.MORE}
    there = verdict(pmf, events)
    back = verdict(pmf[::-1], pmf.size - 1 - events)
    tail = min(abs(t - TAIL) for t in (pmf[events:].sum(), pmf[: events + 1].sum()))
    if tail > 1e-9:
        assert back is mirror.get(there, there)
    assert there.unfavourable(Better.FEWER) is back.unfavourable(Better.MORE) or tail <= 1e-9


@given(pmfs)
def test_position_rises_with_the_count(pmf):
    centiles = [tails(pmf, events).centile for events in range(pmf.size)]
    assert all(a <= b + 1e-12 for a, b in itertools.pairwise(centiles))
    assert 0 <= centiles[0] <= centiles[-1] <= 1 + 1e-9


@given(pmfs, st.data())
def test_inclusive_tails_share_only_the_count_itself(pmf, data):
    events = data.draw(st.integers(0, pmf.size - 1))
    found = tails(pmf, events)
    assert found.below + found.same + found.above == pytest.approx(1, abs=1e-9)
    assert found.tail_at_least + found.tail_at_most == pytest.approx(1 + found.same, abs=1e-9)
    assert found.tail_mid_p_at_least + found.tail_mid_p_at_most == pytest.approx(1, abs=1e-9)


def test_a_side_that_may_not_be_said_is_not_said():
    pmf = WORKED.pmf(100)
    assert verdict(pmf, 0, fewer=False) is Verdict.NONE
    assert verdict(pmf, 30, more=False) is Verdict.NONE
    assert verdict(pmf, 10, more=False) is Verdict.WITHIN
    assert verdict(pmf, 10, more=False, fewer=False) is Verdict.NONE
    shut = limits(pmf, more=False, fewer=False)
    assert (shut.first_more, shut.last_fewer) == (None, None)
    assert (shut.chance_more, shut.chance_fewer) == (0, 0)
    assert (shut.low, shut.high) == (1, 23)


def test_which_side_is_unwelcome():
    assert Verdict.MORE.unfavourable(Better.FEWER) is True
    assert Verdict.MORE.unfavourable(Better.MORE) is False
    assert Verdict.FEWER.unfavourable(Better.MORE) is True
    assert Verdict.WITHIN.unfavourable(Better.MORE) is None
    assert Verdict.NONE.unfavourable(Better.FEWER) is None


@pytest.mark.parametrize("events", [-1, 21])
def test_counts_out_of_range_are_refused(events):
    with pytest.raises(ValueError, match="events must lie"):
        tails(WORKED.pmf(20), events)


@pytest.mark.parametrize("cases", [1, 8, 40, 100])
@pytest.mark.parametrize(("more", "fewer"), [(True, True), (True, False), (False, True)])
def test_limits_alone_give_the_same_verdict(cases, more, fewer):
    chances = student(Centre(MU, 0.12, 0.6), 30).pmf(cases)
    reach = limits(chances, more=more, fewer=fewer)
    can = reach.first_more is not None or reach.last_fewer is not None
    for events in range(cases + 1):
        direct = verdict(chances, events, more=more and can, fewer=fewer and can)
        assert verdict_at(reach, events) is direct
