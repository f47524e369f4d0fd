"""Intervals of one proportion, against print and by a second route."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats
from statsmodels.stats.proportion import proportion_confint

from evsyn.effects.intervals import (
    clopper_pearson,
    jeffreys,
    mid_p,
    one_sided_full_limit,
    one_sided_zero_limit,
    wilson,
)

METHODS = {
    "clopper_pearson": clopper_pearson,
    "wilson": wilson,
    "mid_p": mid_p,
    "jeffreys": jeffreys,
}

# Newcombe RG. Stat Med 1998;17:857-872, Table I; values from memory.
NEWCOMBE = "Newcombe 1998, Table I"
# Companion test values of Fagerland, Lydersen, Laake. Statistical Analysis of Contingency
# Tables, chapter 2 (13 of 16).
FAGERLAND = "Fagerland, Lydersen, Laake, chapter 2"
# scipy 1.17.1, stats/tests/test_morestats.py.
SCIPY = "scipy test_morestats.py"
# statsmodels 0.15.0, stats/tests/results/results_proportion.py.
STATSMODELS = "statsmodels results_proportion.py"

PRINTED = [
    (NEWCOMBE, "clopper_pearson", 81, 263, 0.95, "0.2527", "0.3676"),
    (NEWCOMBE, "clopper_pearson", 15, 148, 0.95, "0.0578", "0.1617"),
    (NEWCOMBE, "clopper_pearson", 0, 20, 0.95, "0.0000", "0.1684"),
    (NEWCOMBE, "clopper_pearson", 1, 29, 0.95, "0.0009", "0.1776"),
    (NEWCOMBE, "wilson", 81, 263, 0.95, "0.2553", "0.3662"),
    (NEWCOMBE, "wilson", 15, 148, 0.95, "0.0624", "0.1605"),
    (NEWCOMBE, "wilson", 0, 20, 0.95, "0.0000", "0.1611"),
    (NEWCOMBE, "wilson", 1, 29, 0.95, "0.0061", "0.1718"),
    (NEWCOMBE, "mid_p", 81, 263, 0.95, "0.2544", "0.3658"),
    (NEWCOMBE, "mid_p", 15, 148, 0.95, "0.0601", "0.1581"),
    (NEWCOMBE, "mid_p", 0, 20, 0.95, "0.0000", "0.1391"),
    (NEWCOMBE, "mid_p", 1, 29, 0.95, "0.0017", "0.1585"),
    (FAGERLAND, "clopper_pearson", 13, 16, 0.95, "0.5435", "0.9595"),
    (FAGERLAND, "mid_p", 13, 16, 0.95, "0.5699", "0.9500"),
    (FAGERLAND, "wilson", 13, 16, 0.95, "0.5699", "0.9341"),
    (SCIPY, "clopper_pearson", 3, 50, 0.99, "0.006872485", "0.202706269"),
    (SCIPY, "clopper_pearson", 0, 10, 0.95, "0.0", "0.3084971"),
    (SCIPY, "clopper_pearson", 10, 10, 0.95, "0.6915029", "1.0"),
    # One-sided 95% is two-sided 90%.
    (SCIPY, "clopper_pearson", 0, 10, 0.90, "0.0", "0.2588656"),
    (SCIPY, "wilson", 3, 10, 0.95, "0.1077913", "0.6032219"),
    # A third party's test file beside its quotation of Newcombe 1998.
    ("second-hand beside Newcombe 1998", "wilson", 0, 8, 0.95, "0.0", "0.3244"),
    ("second-hand beside Newcombe 1998", "wilson", 8, 8, 0.95, "0.6756", "1.0"),
    (STATSMODELS, "clopper_pearson", 18, 20, 0.95, "0.683017", "0.987651"),
    (STATSMODELS, "wilson", 18, 20, 0.95, "0.698966", "0.972134"),
    (STATSMODELS, "jeffreys", 18, 20, 0.95, "0.716147", "0.978628"),
    (STATSMODELS, "clopper_pearson", 4, 20, 0.95, "0.057334", "0.436614"),
    (STATSMODELS, "wilson", 4, 20, 0.95, "0.080658", "0.416017"),
    (STATSMODELS, "jeffreys", 4, 20, 0.95, "0.071520", "0.408226"),
    (STATSMODELS, "clopper_pearson", 4, 200, 0.95, "0.005476", "0.050414"),
    (STATSMODELS, "wilson", 4, 200, 0.95, "0.007804", "0.050287"),
    (STATSMODELS, "jeffreys", 4, 200, 0.95, "0.006788", "0.046847"),
    (STATSMODELS, "clopper_pearson", 0, 30, 0.95, "0.000000", "0.115703"),
    (STATSMODELS, "wilson", 0, 30, 0.95, "0.000000", "0.113513"),
    (STATSMODELS, "wilson", 30, 30, 0.95, "0.886487", "1.000000"),
    (STATSMODELS, "clopper_pearson", 1, 30, 0.95, "0.000844", "0.172169"),
    (STATSMODELS, "wilson", 1, 30, 0.95, "0.005909", "0.166704"),
]


@pytest.mark.parametrize(("source", "method", "x", "n", "level", "low", "high"), PRINTED)
def test_limits_agree_with_print(printed, source, method, x, n, level, low, high):
    got = METHODS[method]([x], [n], level=level)
    assert got[0][0] == printed(low)
    assert got[1][0] == printed(high)


COUNTS = [(0, 1), (1, 1), (0, 7), (3, 7), (7, 7), (2, 250), (249, 250), (40, 1_000_000)]


@pytest.mark.parametrize(("x", "n"), COUNTS)
@pytest.mark.parametrize("level", [0.8, 0.95, 0.998])
@pytest.mark.parametrize(("method", "name"), [("clopper_pearson", "exact"), ("wilson", "wilson")])
def test_limits_agree_with_scipy(x, n, level, method, name):
    low, high = METHODS[method]([x], [n], level=level)
    second = stats.binomtest(x, n).proportion_ci(level, method=name)
    assert low[0] == pytest.approx(second.low, rel=1e-9, abs=1e-15)
    assert high[0] == pytest.approx(second.high, rel=1e-9, abs=1e-15)


def test_jeffreys_agrees_with_statsmodels_away_from_the_ends():
    x, n = np.array([1, 3, 6, 249]), np.array([7, 7, 7, 250])
    low, high = jeffreys(x, n, level=0.9)
    second = proportion_confint(x, n, alpha=0.1, method="jeffreys")
    assert low == pytest.approx(second[0], rel=1e-9)
    assert high == pytest.approx(second[1], rel=1e-9)


def test_jeffreys_holds_the_observed_proportion_at_both_ends():
    # Brown, Cai, DasGupta 2001, section 4.1.2 (from memory): 0 and 1 are kept at the ends.
    low, high = jeffreys([0, 9], [9, 9])
    assert (low[0], high[1]) == (0, 1)
    assert high[0] == pytest.approx(stats.beta.ppf(0.975, 0.5, 9.5))
    assert low[1] == pytest.approx(1 - high[0])


@pytest.mark.parametrize(("x", "n"), COUNTS)
@pytest.mark.parametrize("level", [0.8, 0.95, 0.998])
def test_mid_p_limits_solve_their_own_equation(x, n, level):
    low, high = mid_p([x], [n], level=level)
    tail = (1 - level) / 2
    if x > 0:
        upper = stats.binom.sf(x, n, low[0]) + stats.binom.pmf(x, n, low[0]) / 2
        assert upper == pytest.approx(tail, rel=1e-6)
    else:
        assert low[0] == 0
    if x < n:
        lower = stats.binom.cdf(x, n, high[0]) - stats.binom.pmf(x, n, high[0]) / 2
        assert lower == pytest.approx(tail, rel=1e-6)
    else:
        assert high[0] == 1


@given(st.integers(1, 5000).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))))
def test_every_interval_holds_the_proportion_and_mirrors(counts):
    x, n = counts
    for method in METHODS.values():
        low, high = method([x], [n])
        mirror_low, mirror_high = method([n - x], [n])
        assert 0 <= low[0] <= x / n <= high[0] <= 1
        assert mirror_low[0] == pytest.approx(1 - high[0], abs=1e-12)
        assert mirror_high[0] == pytest.approx(1 - low[0], abs=1e-12)


def test_many_studies_at_once_equal_one_by_one():
    x, n = np.array([0, 5, 9, 9]), np.array([9, 9, 9, 200])
    for method in METHODS.values():
        together = np.array(method(x, n))
        alone = np.array([method([a], [b]) for a, b in zip(x, n, strict=True)])[:, :, 0].T
        assert together == pytest.approx(alone, rel=1e-14)


# (0 of n, printed limit, source)
ZERO_EVENTS = [
    (50, "0.06", "Letter to JAMA 1995;274:1013"),
    (1000, "0.003", "Letter to JAMA 1995;274:1013"),
    (100, "0.03", "BMJ Qual Saf 2013;22:1042"),
    (10, "0.2588656", "scipy test_morestats.py, one-sided"),
]


@pytest.mark.parametrize(("n", "limit", "source"), ZERO_EVENTS)
def test_one_sided_zero_limit_agrees_with_print(printed, n, limit, source):
    assert one_sided_zero_limit([n])[0] == printed(limit)


@pytest.mark.parametrize(("level", "multiplier"), [(0.95, "3"), (0.99, "4.61"), (0.995, "5.30")])
def test_one_sided_zero_limit_approaches_a_multiple_of_one_over_n(printed, level, multiplier):
    # Rule of thumb by Rumke: 3, 4.61 and 5.30 over n; the levels are inferred from the numbers.
    n = 1_000_000
    assert n * one_sided_zero_limit([n], level=level)[0] == printed(multiplier)


def test_zero_events_in_8192_leave_about_three_or_four_in_ten_thousand():
    # Eypasch 1995 as told in Bandolier 23: "about 3 in 10,000"; 3/8192 is 3.66 in 10,000.
    assert 10_000 * one_sided_zero_limit([8192])[0] == pytest.approx(3.66, abs=0.01)


def test_studies_needed_to_exclude_a_rate():
    # Textbook values (common practice, no source): 59 cases exclude 5%, 299 exclude 1%.
    limits = one_sided_zero_limit([58, 59, 298, 299])
    assert limits[0] > 0.05 > limits[1]
    assert limits[2] > 0.01 > limits[3]


def test_full_limit_mirrors_zero_limit():
    n = [1, 10, 250, 1_000_000]
    assert one_sided_full_limit(n) == pytest.approx(1 - one_sided_zero_limit(n), rel=1e-12)


def test_zero_limit_is_the_mid_p_upper_limit():
    # 0.5 (1 - p) ** n = 0.025 and (1 - p) ** n = 0.05 are one equation.
    assert mid_p([0], [20])[1] == pytest.approx(one_sided_zero_limit([20]), rel=1e-12)


@pytest.mark.parametrize(
    ("x", "n", "level", "word"),
    [
        ([-1], [5], 0.95, "events"),
        ([6], [5], 0.95, "events"),
        ([0], [0], 0.95, "total"),
        ([1.5], [5], 0.95, "events"),
        ([1], [5], 95, "level"),
        ([1], [5], 0, "level"),
        ([1], [float("nan")], 0.95, "total"),
        (["a"], [5], 0.95, "events"),
        ([[1]], [[5]], 0.95, "events"),
        ([1, 2], [5], 0.95, "events and total"),
    ],
)
@pytest.mark.parametrize("method", METHODS.values())
def test_impossible_input_is_refused_by_name(method, x, n, level, word):
    with pytest.raises(ValueError, match=rf"^{word} "):
        method(x, n, level=level)


@pytest.mark.parametrize("limit", [one_sided_zero_limit, one_sided_full_limit])
@pytest.mark.parametrize(("n", "level", "word"), [([0], 0.95, "total"), ([5], 1, "level")])
def test_one_sided_limits_refuse_by_name(limit, n, level, word):
    with pytest.raises(ValueError, match=rf"^{word} "):
        limit(n, level=level)
