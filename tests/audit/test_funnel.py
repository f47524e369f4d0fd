"""Exact tails, flags and lines around a fixed target, against scipy's own binomial."""

import numpy as np
import pytest
from scipy import stats

from evsyn.audit.funnel import (
    FixedTarget,
    Flag,
    against_target,
    cases_for_high_flag,
    cases_for_low_flag,
    flagged_counts,
    interpolated_limits,
    stepped_limits,
)

RATES = (0.02, 0.074, 0.3, 0.5, 0.93)
SIZES = np.array([1, 2, 5, 8, 17, 20, 41, 48, 100, 333])
LEVELS = {Flag.ALERT: 0.95, Flag.ALARM: 0.998}


@pytest.mark.parametrize("rate", RATES)
def test_tails_are_those_of_the_exact_one_sided_test(rate):
    # Independent route: scipy.stats.binomtest.
    for n in (1, 8, 41, 200):
        for x in sorted({0, 1, n // 10, n // 2, n - 1, n} & set(range(n + 1))):
            found = against_target(x, n, FixedTarget(rate))
            more = stats.binomtest(x, n, rate, alternative="greater").pvalue
            fewer = stats.binomtest(x, n, rate, alternative="less").pvalue
            assert found.tail_at_least == pytest.approx(more, rel=1e-9, abs=1e-300)
            assert found.tail_at_most == pytest.approx(fewer, rel=1e-9, abs=1e-300)


@pytest.mark.parametrize("rate", RATES)
@pytest.mark.parametrize("flag", LEVELS)
def test_flagged_counts_are_those_whose_inclusive_tail_is_small(rate, flag):
    # Independent route: every count's tails by scipy.stats.binom.
    target = FixedTarget(rate)
    tail = (1 - LEVELS[flag]) / 2
    low, high = flagged_counts(SIZES, rate, target.tail(flag))
    for i, n in enumerate(SIZES.tolist()):
        x = np.arange(n + 1)
        is_low, is_high = (
            stats.binom.cdf(x, n, rate) <= tail,
            stats.binom.sf(x - 1, n, rate) <= tail,
        )
        assert low[i] == (x[is_low].max() if is_low.any() else -1)
        assert high[i] == (x[is_high].min() if is_high.any() else n + 1)
        assert target.flagged(n, flag) == (low[i], high[i])


def test_flags_follow_the_flagged_counts_on_both_sides():
    target = FixedTarget(0.2)
    for n in (10, 60):
        low, high = target.flagged(n, Flag.ALERT)
        lower, higher = target.flagged(n, Flag.ALARM)
        for x in range(n + 1):
            found = against_target(x, n, target)
            is_alarm = x <= lower or x >= higher
            is_flagged = x <= low or x >= high
            expected = Flag.ALARM if is_alarm else Flag.ALERT if is_flagged else Flag.NONE
            assert found.flag is expected
            assert found.is_above is (None if expected is Flag.NONE else x >= high)


def test_a_tail_of_exactly_the_level_raises_the_flag():
    # At a target of one half five of five have a chance of 1/32, both by hand.
    assert against_target(5, 5, FixedTarget(0.5, 1 - 2 / 32)).flag is Flag.ALERT
    assert against_target(5, 5, FixedTarget(0.5, 1 - 2 / 33)).flag is Flag.NONE


def test_small_counts_speak():
    # Four of eight at 7.4%: binomial tail 0.0016 (scipy.stats.binom), between the two lines.
    found = against_target(4, 8, FixedTarget(0.074))
    assert found.tail_at_least == pytest.approx(stats.binom.sf(3, 8, 0.074))
    assert found.flag is Flag.ALERT


@pytest.mark.parametrize("rate", RATES)
@pytest.mark.parametrize("tail", [0.025, 0.001])
def test_smooth_limits_are_where_the_cumulative_chance_crosses_the_level(rate, tail):
    # Spiegelhalter 2005 (formula from memory): the count at which the cumulative chance, joined by
    # straight lines between whole counts, reaches p. Independent route: numpy's interpolation.
    low, high = interpolated_limits(SIZES, rate, tail)
    last_low, first_high = flagged_counts(SIZES, rate, tail)
    for i, n in enumerate(SIZES.tolist()):
        reached = np.concatenate([[0.0], stats.binom.cdf(np.arange(n + 1), n, rate)])
        for limit, p, exists in (
            (low[i], tail, last_low[i] >= 0),
            (high[i], 1 - tail, first_high[i] <= n),
        ):
            if not exists:
                assert np.isnan(limit)
                continue
            assert np.interp(n * limit, np.arange(-1, n + 1), reached) == pytest.approx(p, abs=1e-9)


@pytest.mark.parametrize("rate", RATES)
def test_the_upper_smooth_line_passes_up_to_a_count_below_the_first_that_is_flagged(rate):
    low, high = interpolated_limits(SIZES, rate, 0.025)
    last_low, first_high = flagged_counts(SIZES, rate, 0.025)
    above = ~np.isnan(high)
    gap = first_high[above] - SIZES[above] * high[above]
    assert np.all((gap >= 1 - 1e-9) & (gap <= 2 + 1e-9))
    below = ~np.isnan(low)
    gap = SIZES[below] * low[below] - last_low[below]
    assert np.all((gap >= -1e-9) & (gap <= 1 + 1e-9))


@pytest.mark.parametrize("rate", RATES)
@pytest.mark.parametrize("flag", LEVELS)
def test_stepped_lines_part_flagged_counts_from_all_others(rate, flag):
    target = FixedTarget(rate)
    low, high = stepped_limits(SIZES, rate, target.tail(flag))
    for i, n in enumerate(SIZES.tolist()):
        for x in range(n + 1):
            found = against_target(x, n, target)
            is_flagged = found.flag is Flag.ALARM or found.flag is flag
            is_outside = x / n > high[i] or x / n < low[i]
            assert is_flagged == is_outside


@pytest.mark.parametrize("rate", RATES)
@pytest.mark.parametrize("tail", [0.025, 0.001])
def test_cases_from_which_a_result_can_lie_beyond_a_line(rate, tail):
    # Independent route: the chance of no event, and of nothing else, by scipy.stats.binom.
    n = cases_for_low_flag(rate, tail)
    assert stats.binom.pmf(0, n, rate) <= tail * (1 + 1e-9)
    assert n == 1 or stats.binom.pmf(0, n - 1, rate) > tail
    n = cases_for_high_flag(rate, tail)
    assert stats.binom.pmf(n, n, rate) <= tail * (1 + 1e-9)
    assert n == 1 or stats.binom.pmf(n - 1, n - 1, rate) > tail


@pytest.mark.parametrize(
    "how", [(0.0,), (1.0,), (0.1, 0.998, 0.95), (0.1, 0.95, 0.95), (0.1, 0.95, 1.0)]
)
def test_targets_that_cannot_be_are_refused(how):
    with pytest.raises(ValueError, match="must lie"):
        FixedTarget(*how)


@pytest.mark.parametrize(("events", "total"), [(-1, 5), (6, 5), (0, 0)])
def test_counts_that_cannot_be_are_refused(events, total):
    with pytest.raises(ValueError, match="events"):
        against_target(events, total, FixedTarget(0.1))
