"""Intervals of the pooled estimate, by a second route."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats
from statsmodels.stats.meta_analysis import combine_effects

from evsyn import pool_estimates
from evsyn.pooling.grid import AnalysisGrid
from evsyn.pooling.two_step import pool_two_step

SETS = [
    ([0.1, 0.9, -0.4, 1.8], [0.04, 0.2, 0.1, 0.05]),
    ([0.1, 0.5, 0.9, 2.0, 1.1], [0.04, 0.1, 0.04, 0.2, 0.3]),
]


@pytest.mark.parametrize(("y", "v"), SETS)
@pytest.mark.parametrize("level", [0.9, 0.95])
def test_ordinary_and_hartung_knapp_agree_with_statsmodels(y, v, level):
    y, v = np.array(y), np.array(v)
    second = combine_effects(y, v, method_re="dl", use_t=False)
    _, ordinary, _, _ = second.conf_int(alpha=1 - level, use_t=False)
    _, _, _, scaled = second.conf_int(alpha=1 - level, use_t=True)
    for interval, limits in (("ordinary", ordinary), ("hartung_knapp", scaled)):
        pooled = pool_estimates(y, v, interval=interval, level=level)
        assert pooled.estimate == pytest.approx(second.mean_effect_re, rel=1e-9)
        assert (pooled.low, pooled.high) == pytest.approx(limits, rel=1e-9)


@given(
    st.lists(st.tuples(st.floats(-3, 3), st.floats(0.01, 5)), min_size=2, max_size=8),
    st.sampled_from(["dersimonian_laird", "restricted_ml"]),
)
@settings(deadline=None)
def test_floored_interval_is_the_wider_of_two(studies, between):
    y, v = zip(*studies, strict=True)
    width = {
        interval: pool_estimates(y, v, between=between, interval=interval)
        for interval in ("ordinary_t", "hartung_knapp", "hartung_knapp_floor")
    }
    half = {name: pooled.high - pooled.low for name, pooled in width.items()}
    wider = max(half["ordinary_t"], half["hartung_knapp"])
    assert half["hartung_knapp_floor"] == pytest.approx(wider, rel=1e-9)
    active = width["hartung_knapp_floor"].floor_active
    ratio = half["hartung_knapp"] / half["ordinary_t"]
    assert active == (ratio < 1) or ratio == pytest.approx(1, rel=1e-6)
    assert not width["hartung_knapp"].floor_active


def test_t_interval_uses_k_minus_one():
    pooled = pool_estimates(*SETS[0], interval="ordinary_t", level=0.9)
    half = stats.t.ppf(0.95, 3) * pooled.se_on_scale
    assert pooled.high - pooled.estimate == pytest.approx(half, rel=1e-12)
    assert pooled.estimate - pooled.low == pytest.approx(half, rel=1e-12)


def test_standard_error_is_the_models_own_whatever_the_interval():
    errors = {
        pool_estimates(*SETS[1], interval=name).se_on_scale
        for name in ("ordinary", "hartung_knapp", "hartung_knapp_floor", "ordinary_t")
    }
    assert len(errors) == 1


def test_floor_is_not_flagged_where_it_binds_by_rounding_only():
    # Paule and Mandel's equation makes the factor exactly 1 wherever tau2 is above 0.
    rng = np.random.default_rng(6)
    y, v = rng.normal(size=(50, 7)), rng.uniform(0.05, 0.1, size=(50, 7))
    grid = AnalysisGrid(tuple(map(str, range(50))), np.ones((50, 7), dtype=bool))
    answers = pool_two_step(y, v, grid, between="paule_mandel", interval="hartung_knapp_floor")
    assert np.all(answers.tau2 > 0)
    assert not np.any(answers.floor_active)
