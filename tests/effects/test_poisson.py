"""Exact limits of a count, against scipy, a published approximation and a published example."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from evsyn.effects.poisson import exact_poisson


def byar(events, level=0.95):
    """Return Byar's limits, as the Public Health Data Science guide of 25 May 2018 prints them."""
    z = stats.norm.ppf((1 + level) / 2)
    more = events + 1
    low = events * (1 - 1 / (9 * events) - z / (3 * math.sqrt(events))) ** 3
    return low, more * (1 - 1 / (9 * more) + z / (3 * math.sqrt(more))) ** 3


# Liddell FDK. J Epidemiol Community Health 1984;38:85-88, example 1: 8 observed, 3.59 expected
# (inputs second-hand). The printed limits were not seen: these are the exact ones, own computation.
@pytest.mark.parametrize(("level", "low", "high"), [(0.90, "1.11", "4.02"), (0.95, "0.96", "4.39")])
def test_eight_observed_where_3_59_are_expected(level, low, high, printed):
    got = exact_poisson([8], level=level)
    ratio = 8 / 3.59
    assert ratio == printed("2.23")
    assert got[0][0] / 3.59 == printed(low)
    assert got[1][0] / 3.59 == printed(high)


# Technical Guide: Confidence Intervals, Public Health Data Science, 25 May 2018: Byar's method is
# within 0.2% of the exact limits from 10 events.
@pytest.mark.parametrize("events", [10, 11, 15, 20, 50, 200, 1000])
def test_byar_is_within_a_fifth_of_a_per_cent_from_ten_events(events):
    low, high = exact_poisson([events])
    assert byar(events)[0] == pytest.approx(low[0], rel=0.002)
    assert byar(events)[1] == pytest.approx(high[0], rel=0.002)


# Own computation, no printed source: why small units get exact limits.
@pytest.mark.parametrize(
    ("events", "out", "margin"), [(10, 0.17, 0.005), (2, 7, 0.5), (1, 48, 0.5)]
)
def test_below_ten_byars_lower_limit_is_out(events, out, margin):
    low = exact_poisson([events])[0][0]
    assert 100 * abs(byar(events)[0] / low - 1) == pytest.approx(out, abs=margin)


@pytest.mark.parametrize("level", [0.8, 0.95, 0.998])
@pytest.mark.parametrize("events", [1, 2, 8, 100, 5000])
def test_limits_are_chi_squared_quantiles(events, level):
    low, high = exact_poisson([events], level=level)
    tail = (1 - level) / 2
    assert low[0] == pytest.approx(stats.chi2.ppf(tail, 2 * events) / 2, rel=1e-9)
    assert high[0] == pytest.approx(stats.chi2.isf(tail, 2 * events + 2) / 2, rel=1e-9)


def test_without_an_event_the_lower_limit_is_none_and_the_upper_about_3_7():
    low, high = exact_poisson([0])
    assert low[0] == 0
    assert high[0] == pytest.approx(-math.log(0.025))


@given(st.integers(0, 2000), st.floats(0.5, 0.999))
def test_limits_leave_their_tail_and_hold_the_count(events, level):
    (low,), (high,) = exact_poisson([events], level=level)
    assert low <= events <= high
    assert stats.poisson.cdf(events, high) == pytest.approx((1 - level) / 2, rel=1e-6)
    if events:
        assert stats.poisson.sf(events - 1, low) == pytest.approx((1 - level) / 2, rel=1e-6)


@pytest.mark.parametrize("wrong", [[-1], [1.5], [np.nan], [np.inf], ["a"], [[1]]])
def test_what_is_no_count_is_refused(wrong):
    with pytest.raises(ValueError, match=r"^events "):
        exact_poisson(wrong)


def test_a_level_that_is_none_is_refused():
    with pytest.raises(ValueError, match=r"^level "):
        exact_poisson([3], level=95)
