"""The pooled estimate at a stated spread, and at the largest the studies leave open."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import optimize

from evsyn import pool_estimates
from evsyn.pooling.given_tau import summary_at_largest_tau, summary_at_tau

STUDIES = st.lists(
    st.tuples(st.floats(-3, 3), st.floats(-6, 2).map(np.exp)), min_size=2, max_size=9
)


def restricted(tau2, y, v):
    weights = 1 / (v + tau2)
    mean = np.sum(weights * y) / weights.sum()
    logs = np.sum(np.log(v + tau2)) + np.log(weights.sum())
    return -(logs + np.sum(weights * (y - mean) ** 2)) / 2


@settings(deadline=None)
@given(STUDIES)
def test_at_the_estimated_spread_it_is_the_pooled_estimate(studies):
    y, v = map(np.array, zip(*studies, strict=True))
    pooled = pool_estimates(y, v, between="restricted_ml")
    at = summary_at_tau(y, v, pooled.tau)
    assert at.estimate == pytest.approx(pooled.estimate_on_scale, rel=1e-9, abs=1e-12)
    assert at.se == pytest.approx(pooled.se_on_scale, rel=1e-9)


@settings(deadline=None)
@given(STUDIES, st.sampled_from([0.5, 1.92]))
def test_largest_spread_lies_a_drop_below_the_maximum_and_nothing_above_it_is_higher(studies, drop):
    y, v = map(np.array, zip(*studies, strict=True))
    peak = pool_estimates(y, v, between="restricted_ml").tau2
    at = summary_at_largest_tau(y, v, drop=drop)
    floor = restricted(peak, y, v) - drop
    assert at.tau**2 > peak
    assert restricted(at.tau**2, y, v) == pytest.approx(floor, abs=1e-9)
    beyond = at.tau**2 * np.geomspace(1 + 1e-6, 1e6, 500)
    assert all(restricted(tau2, y, v) < floor for tau2 in beyond)
    assert at == summary_at_tau(y, v, at.tau)


def test_largest_spread_agrees_with_scipy():
    y, v = np.array([0.1, 0.2, 0.15, 0.12]), np.array([0.04, 0.1, 0.05, 0.2])
    peak = restricted(0, y, v)
    root = optimize.brentq(lambda t: restricted(t, y, v) - peak + 0.5, 0, 10, xtol=1e-14)
    assert summary_at_largest_tau(y, v).tau == pytest.approx(np.sqrt(root), rel=1e-9)


def test_many_studies_have_a_sharp_likelihood():
    rng = np.random.default_rng(1)
    y = rng.normal(0, 1, 5000)
    v = np.full(5000, 0.01)
    # Curvature at the maximum: k / (2 (v + tau2)^2); a drop of 0.5 is one standard error.
    peak = pool_estimates(y, v, between="restricted_ml").tau2
    at = summary_at_largest_tau(y, v)
    assert at.tau**2 - peak == pytest.approx((peak + 0.01) * np.sqrt(2 / 4999), rel=0.02)


def test_one_study_has_a_summary_and_no_largest_spread():
    assert summary_at_tau([2.0], [0.25], 0.0).se == pytest.approx(0.5)
    with pytest.raises(ValueError, match="at least 2 studies; got 1"):
        summary_at_largest_tau([2.0], [0.25])
    with pytest.raises(ValueError, match="at least 1 studies; got 0"):
        summary_at_tau([], [], 0.1)


@pytest.mark.parametrize("tau", [-0.1, np.nan, np.inf])
def test_impossible_spread_is_refused(tau):
    with pytest.raises(ValueError, match=r"^tau "):
        summary_at_tau([0.0, 1.0], [1.0, 1.0], tau)


@pytest.mark.parametrize("drop", [0, -1, np.nan, np.inf])
def test_impossible_drop_is_refused(drop):
    with pytest.raises(ValueError, match=r"^drop "):
        summary_at_largest_tau([0.0, 1.0], [1.0, 1.0], drop=drop)
