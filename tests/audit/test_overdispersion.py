"""Whether units differ by more than chance allows, by simulation and against scipy."""

import math

import numpy as np
import pytest
from scipy import stats
from scipy.stats import mstats

from evsyn.audit.overdispersion import LEAST_UNITS, overdispersion

TARGET = 0.3


def drawn(units, cases, tau, seed):
    draw = np.random.default_rng(seed)
    rates = np.clip(TARGET + tau * draw.standard_normal((2000, units)), 0, 1)
    return draw.binomial(cases, rates), np.full(units, cases)


def test_below_ten_units_nothing_is_said():
    assert overdispersion([3] * 9, [20] * 9, TARGET) is None
    assert overdispersion([3] * LEAST_UNITS, [20] * LEAST_UNITS, TARGET) is not None


def test_units_on_the_target_differ_by_nothing():
    found = overdispersion([6] * 12, [20] * 12, TARGET)
    assert (found.phi, found.phi_drawn_in, found.tau) == (0, 0, 0)
    assert not found.is_triggered


def test_phi_is_the_mean_of_squared_standardised_distances():
    # Independent route: Pearson's chi-squared statistic of scipy, which sums the same squares.
    events, totals = np.array([2, 9, 4, 15, 30, 1, 8, 12, 7, 5]), np.arange(20, 120, 10)
    expected = np.concatenate([totals * TARGET, totals * (1 - TARGET)])
    seen = np.concatenate([events, totals - events])
    statistic = np.sum((seen - expected) ** 2 / expected)
    assert overdispersion(events, totals, TARGET).phi == pytest.approx(statistic / 10)


def test_extremes_are_drawn_in_as_by_scipy():
    # Independent route: scipy.stats.mstats.winsorize at the 10th and 90th centile.
    draw = np.random.default_rng(4)
    for units in (10, 14, 25, 40):
        totals = draw.integers(20, 200, units)
        events = draw.binomial(totals, draw.uniform(0.1, 0.6, units))
        z = (events / totals - TARGET) / np.sqrt(TARGET * (1 - TARGET) / totals)
        expected = np.mean(np.asarray(mstats.winsorize(z, limits=(0.1, 0.1))) ** 2)
        assert overdispersion(events, totals, TARGET).phi_drawn_in == pytest.approx(expected)


@pytest.mark.parametrize("units", [10, 30])
def test_where_only_chance_acts_the_trigger_is_as_rare_as_chi_squared_says(units):
    # With many cases z is nearly normal, so units times phi is chi-squared on as many degrees of
    # freedom (scipy.stats.chi2). 2,000 draws: three standard errors are about 1.4%.
    events, totals = drawn(units, 5000, 0.0, 11)
    fired = [overdispersion(row, totals, TARGET).is_triggered for row in events]
    expected = stats.chi2.sf(units * (1 + 2 * math.sqrt(2 / units)), units)
    assert np.mean(fired) == pytest.approx(expected, abs=0.014)


def test_the_spread_of_units_around_a_target_from_outside_is_found_without_bias():
    # Simulated spread of 8 percentage points, far enough from 0 that the cut never acts.
    events, totals = drawn(20, 400, 0.08, 5)
    squares = [overdispersion(row, totals, TARGET).tau ** 2 for row in events]
    # Rates drawn differ from the target by tau, and their own binomial variance is a little less.
    share = 1 - 1 / 400
    assert np.mean(squares) == pytest.approx(share * 0.08**2, rel=0.02)


def test_widened_limits_without_spread_are_the_normal_ones():
    found = overdispersion([6] * 12, [20] * 12, TARGET)
    sizes = np.array([10, 50])
    low, high = found.limits(sizes, TARGET, 0.025)
    expected = stats.norm.interval(0.95, TARGET, np.sqrt(TARGET * (1 - TARGET) / sizes))
    np.testing.assert_allclose([low, high], expected)


def test_widened_limits_do_not_close_on_the_target():
    events, totals = drawn(20, 400, 0.08, 5)
    found = overdispersion(events[0], totals, TARGET)
    low, high = found.limits(np.array([10**9]), TARGET, 0.025)
    assert high[0] - TARGET == pytest.approx(stats.norm.ppf(0.975) * found.tau, rel=1e-3)
    assert TARGET - low[0] == pytest.approx(high[0] - TARGET)


def test_rows_of_different_length_are_refused():
    with pytest.raises(ValueError, match="same length"):
        overdispersion([1, 2], [10], TARGET)
