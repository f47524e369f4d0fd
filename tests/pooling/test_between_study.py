"""Estimators of the between-study variance, each by a second route."""

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy import optimize
from statsmodels.stats.meta_analysis import combine_effects

from evsyn import pool_estimates
from evsyn.pooling.between_study import ESTIMATORS
from evsyn.pooling.studies import study_rows, weight_spread

ESTIMATES = st.floats(-5, 5).map(lambda value: round(value, 6))
VARIANCES = st.floats(-9, 4).map(np.exp)
STUDIES = st.lists(st.tuples(ESTIMATES, VARIANCES), min_size=2, max_size=12)


def tau2_of(name, y, v):
    rows = study_rows(np.array(y), np.array(v), np.ones((1, len(y)), dtype=bool))
    answer = ESTIMATORS[name](rows)
    assert answer.converged.all()
    return answer.tau2[0]


def log_likelihood(tau2, y, v, restricted):
    # Multivariate normal log-density with the mean at its best, in matrices.
    covariance = np.diag(v + tau2)
    ones = np.ones(len(y))
    precision = np.linalg.inv(covariance)
    mean = ones @ precision @ y / (ones @ precision @ ones)
    value = np.linalg.slogdet(covariance)[1] + (y - mean) @ precision @ (y - mean)
    if restricted:
        value += np.log(ones @ precision @ ones)
    return -value / 2


def best_by_brute_force(y, v, restricted):
    largest = max(v.max(), 4 * y.var(ddof=1))
    grid = np.concatenate([[0], np.geomspace(1e-4 * v.min(), largest, 4000)])
    values = [log_likelihood(tau2, y, v, restricted) for tau2 in grid]
    place = int(np.argmax(values))
    low, high = grid[max(place - 1, 0)], grid[min(place + 1, grid.size - 1)]
    found = optimize.minimize_scalar(
        lambda tau2: -log_likelihood(tau2, y, v, restricted), bounds=(low, high), method="bounded"
    )
    return max(-found.fun, values[place])


@pytest.mark.parametrize(("name", "restricted"), [("restricted_ml", True), ("ml", False)])
@settings(max_examples=20, deadline=None)
@given(studies=STUDIES)
def test_no_variance_has_a_higher_likelihood(name, restricted, studies):
    y, v = map(np.array, zip(*studies, strict=True))
    height = log_likelihood(tau2_of(name, y, v), y, v, restricted)
    assert height >= best_by_brute_force(y, v, restricted) - 1e-9


# Two close precise studies and two far imprecise ones: two maxima, in the first set the higher is
# the larger variance, in the second the smaller.
TWO_MAXIMA = [
    ([0.0, 0.02, 3.4, -3.4], [1e-4, 1e-4, 1.0, 1.0], False),
    ([0.0, 0.02, 2.4, -2.4], [1e-4, 1e-4, 1.0, 1.0], True),
]


@pytest.mark.parametrize(("y", "v", "lower_wins"), TWO_MAXIMA)
def test_restricted_ml_takes_the_higher_of_two_maxima(y, v, lower_wins):
    y, v = np.array(y), np.array(v)
    grid = np.concatenate([[0], np.geomspace(1e-7, 100, 4000)])
    values = np.array([log_likelihood(tau2, y, v, True) for tau2 in grid])
    is_peak = np.r_[
        values[0] > values[1], (values[1:-1] > values[:-2]) & (values[1:-1] > values[2:])
    ]
    peaks = grid[:-1][is_peak]
    assert peaks.size == 2
    chosen = peaks[0] if lower_wins else peaks[1]
    assert tau2_of("restricted_ml", y, v) == pytest.approx(chosen, rel=0.01, abs=1e-6)


@settings(deadline=None)
@given(studies=STUDIES)
def test_dersimonian_laird_agrees_with_statsmodels(studies):
    y, v = map(np.array, zip(*studies, strict=True))
    weights = 1 / v
    residual = y - np.sum(weights * y) / weights.sum()
    # Below its degrees of freedom the library does not cut at zero, and its weights turn negative.
    assume(np.sum(weights * residual**2) >= len(y) - 1)
    second = combine_effects(y, v, method_re="dl")
    assert tau2_of("dersimonian_laird", y, v) == pytest.approx(second.tau2, rel=1e-6, abs=1e-12)


@pytest.mark.parametrize(
    ("y", "v"),
    [
        ([0.1, 0.9, -0.4, 1.8], [0.04, 0.2, 0.1, 0.05]),
        ([-2.2, -1.1, -3.0, -2.9, 0.3, -1.7, -2.0], [0.3, 0.2, 1.5, 0.05, 0.4, 0.01, 2.0]),
    ],
)
def test_paule_mandel_agrees_with_statsmodels(y, v):
    second = combine_effects(np.array(y), np.array(v), method_re="iterated", atol=1e-9)
    assert tau2_of("paule_mandel", y, v) == pytest.approx(second.tau2, rel=1e-7)


@settings(deadline=None)
@given(studies=STUDIES)
def test_paule_mandel_solves_its_equation(studies):
    y, v = map(np.array, zip(*studies, strict=True))
    tau2 = tau2_of("paule_mandel", y, v)
    weights = 1 / (v + tau2)
    mean = np.sum(weights * y) / weights.sum()
    q = np.sum(weights * (y - mean) ** 2)
    df = len(y) - 1
    assert q == pytest.approx(df, rel=1e-6) if tau2 > 0 else q <= df * (1 + 1e-9)


def test_hedges_olkin_by_hand():
    # Sample variance of 0, 2, 4 is 4; mean sampling variance is 1.
    assert tau2_of("hedges_olkin", [0.0, 2.0, 4.0], [0.5, 1.0, 1.5]) == pytest.approx(3)
    assert tau2_of("hedges_olkin", [0.0, 2.0, 4.0], [4.0, 4.0, 5.0]) == 0


def test_sidik_jonkman_by_its_first_definition():
    # Sidik and Jonkman 2005: r = v / t0, weights 1 / (r + 1), t0 the mean squared distance.
    y, v = np.array([0.1, 0.9, -0.4, 1.8]), np.array([0.04, 0.2, 0.1, 0.05])
    ratio = v / np.mean((y - y.mean()) ** 2)
    weights = 1 / (ratio + 1)
    mean = np.sum(weights * y) / weights.sum()
    expected = np.sum(weights * (y - mean) ** 2) / 3
    assert tau2_of("sidik_jonkman", y, v) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize("name", [name for name in ESTIMATORS if name != "sidik_jonkman"])
def test_estimators_agree_where_all_studies_are_equally_precise(name):
    # With one sampling variance every moment equation is the same: sample variance less it.
    # ML divides by k instead of k - 1.
    y, v = np.array([0.1, 0.9, -0.4, 1.8, 2.0]), np.full(5, 0.05)
    spread = y.var(ddof=0 if name == "ml" else 1)
    assert tau2_of(name, y, v) == pytest.approx(spread - 0.05, rel=1e-9)


def test_weight_spread_keeps_its_digits_beside_one_dominant_weight():
    # One weight of 1e16 and two of 1: the plain formula leaves nothing but rounding; the value is
    # 2 * 2 + 1 / 1e16-th, to rounding 4.
    assert weight_spread(np.array([[1e16, 1.0, 1.0]]))[0] == pytest.approx(4, rel=1e-12)
    weights = np.array([[0.5, 2.0, 3.0, 0.0]])
    assert weight_spread(weights)[0] == pytest.approx(5.5 - 13.25 / 5.5, rel=1e-14)


def test_estimator_name_is_what_the_record_says():
    for name in ESTIMATORS:
        assert pool_estimates([0.1, 0.5, 0.9], [0.04, 0.1, 0.04], between=name).between == name
