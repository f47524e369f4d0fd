"""Every estimator with every interval keeps every promise in this table."""

import math
from dataclasses import fields

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evsyn import Pooled, pool_estimates, pool_proportions
from evsyn.pooling.between_study import ESTIMATORS
from evsyn.pooling.functions import pool_estimates_grid, pool_proportions_grid
from evsyn.pooling.grid import AnalysisGrid, join, leave_one_out, overall
from evsyn.pooling.summary_interval import INTERVALS

each_method = pytest.mark.parametrize(
    ("between", "interval"),
    [(between, interval) for between in ESTIMATORS for interval in INTERVALS],
)
few_examples = settings(max_examples=15, deadline=None)

COUNTS = st.lists(
    st.integers(1, 300).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))),
    min_size=2,
    max_size=10,
)
EFFECTS = st.lists(
    st.tuples(st.floats(-20, 20), st.floats(-8, 3).map(math.exp)), min_size=2, max_size=10
)

NUMBERS = [
    field.name
    for field in fields(Pooled)
    if field.type in (float, "float") and field.name != "level"
]


def assert_same(one, other):
    for name in NUMBERS:
        expected = getattr(other, name)
        assert getattr(one, name) == pytest.approx(expected, rel=1e-7, abs=1e-9, nan_ok=True), name
    assert (one.k, one.status, one.converged, one.notes) == (
        other.k,
        other.status,
        other.converged,
        other.notes,
    )


def split(studies):
    return tuple(map(np.array, zip(*studies, strict=True)))


@each_method
@few_examples
@given(studies=EFFECTS, data=st.data())
def test_order_of_studies_is_irrelevant(between, interval, studies, data):
    shuffled = data.draw(st.permutations(range(len(studies))))
    y, v = split(studies)
    one = pool_estimates(y, v, between=between, interval=interval)
    other = pool_estimates(y[shuffled], v[shuffled], between=between, interval=interval)
    assert_same(one, other)
    assert np.array(one.weights)[shuffled] == pytest.approx(np.array(other.weights), rel=1e-7)


@each_method
@few_examples
@given(studies=COUNTS, extra=COUNTS)
def test_masked_equals_absent(between, interval, studies, extra):
    x, n = split(studies + extra)
    mask = np.arange(x.size)[np.newaxis, :] < len(studies)
    (masked,) = pool_proportions_grid(
        x, n, AnalysisGrid(("some",), mask), between=between, interval=interval
    )
    absent = pool_proportions(*split(studies), between=between, interval=interval)
    assert_same(masked, absent)
    if masked.weights:
        assert masked.weights[len(studies) :] == (0.0,) * len(extra)
        assert masked.weights[: len(studies)] == pytest.approx(absent.weights, rel=1e-7)


@each_method
@few_examples
@given(studies=COUNTS)
def test_batch_equals_one_by_one(between, interval, studies):
    x, n = split(studies)
    grid = join(overall(x.size), leave_one_out([str(i) for i in range(x.size)]))
    together = pool_proportions_grid(x, n, grid, between=between, interval=interval)
    for mask, record in zip(grid.mask, together, strict=True):
        alone = pool_proportions(x[mask], n[mask], between=between, interval=interval)
        assert_same(record, alone)


@each_method
@few_examples
@given(
    estimate=st.floats(-1e4, 1e4),
    variances=st.lists(st.floats(-10, 5).map(math.exp), min_size=2, max_size=8),
)
def test_equal_studies_have_no_spread(between, interval, estimate, variances):
    pooled = pool_estimates(
        [estimate] * len(variances), variances, between=between, interval=interval
    )
    assert (pooled.estimate, pooled.tau2, pooled.q, pooled.i2) == (estimate, 0, 0, 0)
    assert pooled.notes == ("tau2_at_zero",)


@each_method
@few_examples
@given(studies=COUNTS)
def test_events_and_non_events_mirror(between, interval, studies):
    x, n = split(studies)
    one = pool_proportions(x, n, between=between, interval=interval)
    other = pool_proportions(n - x, n, between=between, interval=interval)
    for name, mirror in [
        ("estimate", "estimate"),
        ("low", "high"),
        ("high", "low"),
        ("prediction_low", "prediction_high"),
    ]:
        expected = 1 - getattr(other, mirror)
        assert getattr(one, name) == pytest.approx(expected, rel=1e-9, abs=1e-12, nan_ok=True)
    assert one.estimate_on_scale == pytest.approx(-other.estimate_on_scale, abs=1e-12, nan_ok=True)
    for name in ("se_on_scale", "tau2", "q", "p", "i2", "tau2_high"):
        expected = getattr(other, name)
        assert getattr(one, name) == pytest.approx(expected, rel=1e-9, abs=1e-12, nan_ok=True)
    mirrored = {"all_zero": "all_full", "all_full": "all_zero"}
    assert one.status == mirrored.get(other.status, other.status)


@each_method
@few_examples
@given(studies=EFFECTS, shift=st.floats(-50, 50), factor=st.floats(0.1, 10))
def test_shift_and_change_of_unit_carry_through(between, interval, studies, shift, factor):
    y, v = split(studies)
    one = pool_estimates(y, v, between=between, interval=interval)
    other = pool_estimates(factor * (y + shift), factor**2 * v, between=between, interval=interval)
    for name in ("estimate", "low", "high", "prediction_low"):
        expected = factor * (getattr(one, name) + shift)
        assert getattr(other, name) == pytest.approx(expected, rel=1e-6, abs=1e-6)
    assert other.tau2 == pytest.approx(factor**2 * one.tau2, rel=1e-6, abs=1e-9)
    assert other.i2 == pytest.approx(one.i2, rel=1e-6, abs=1e-9)


@each_method
@few_examples
@given(studies=COUNTS)
def test_there_and_back_and_nothing_out_of_range(between, interval, studies):
    pooled = pool_proportions(*split(studies), between=between, interval=interval)
    assert 0 <= pooled.low <= pooled.estimate <= pooled.high <= 1
    if pooled.status == "pooled":
        odds = math.exp(pooled.estimate_on_scale)
        assert pooled.estimate == pytest.approx(odds / (1 + odds), rel=1e-12)
        assert 0 <= pooled.prediction_low <= pooled.estimate <= pooled.prediction_high <= 1
        assert 0 <= pooled.tau2_low <= pooled.tau2_high
        assert sum(pooled.weights) == pytest.approx(1)
        assert 0 <= pooled.i2 < 1
        assert pooled.converged


@each_method
def test_no_study(between, interval):
    for pooled in (
        pool_proportions([], [], between=between, interval=interval),
        pool_estimates([], [], between=between, interval=interval),
    ):
        assert (pooled.k, pooled.status, pooled.weights) == (0, "no_study", ())
        assert all(math.isnan(getattr(pooled, name)) for name in NUMBERS)
        assert pooled.to_dict()["estimate"] is None


@each_method
def test_two_studies_give_what_is_defined(between, interval):
    pooled = pool_proportions([2, 9], [40, 50], between=between, interval=interval)
    assert (pooled.k, pooled.status, pooled.df, pooled.prediction_df) == (2, "pooled", 1, 1)
    assert all(math.isfinite(getattr(pooled, name)) for name in NUMBERS)


@each_method
@pytest.mark.parametrize(("x", "status"), [(0, "all_zero"), (1, "all_full")])
def test_all_at_one_end_show_their_total(between, interval, x, status):
    n = [12, 30, 7]
    pooled = pool_proportions([x * size for size in n], n, between=between, interval=interval)
    assert (pooled.status, pooled.interval, pooled.k) == (status, "clopper_pearson", 3)
    assert pooled.estimate == x
    # Two-sided 95%: the one open limit has 2.5% beyond it.
    limit = 0.025 ** (1 / 49)
    assert (pooled.low, pooled.high) == pytest.approx((0, 1 - limit) if x == 0 else (limit, 1))
    assert math.isnan(pooled.tau2)
    assert math.isnan(pooled.estimate_on_scale)
    assert math.isnan(pooled.prediction_low)


@each_method
def test_empty_analyses_stand_beside_full_ones(between, interval):
    mask = np.array([[False] * 3, [True, False, False], [True, True, True]])
    grid = AnalysisGrid(("none", "one", "all"), mask)
    none, one, whole = pool_estimates_grid(
        [0.1, 0.4, 0.9], [0.1, 0.2, 0.1], grid, between=between, interval=interval
    )
    assert [none.status, one.status, whole.status] == ["no_study", "one_study", "pooled"]
    assert one.weights == (1.0, 0.0, 0.0)
