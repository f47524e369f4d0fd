"""The public functions: refusals, one study, records."""

import json
import math

import numpy as np
import pandas as pd
import pytest
from scipy import stats

from evsyn import pool_estimates, pool_proportions
from evsyn.pooling.between_study import ESTIMATORS, BetweenStudy
from evsyn.pooling.functions import pool_estimates_grid, pool_proportions_grid
from evsyn.pooling.grid import overall

REFUSED_COUNTS = [
    ([1, 2], [5], r"events and total must be equally long; got 2 events, 1 total"),
    ([[1, 2]], [[5, 5]], r"events must be a flat list, one value a study; got 2 axes"),
    ([1, -2], [5, 5], r"events must not be negative; see events\[1\]"),
    ([1, 6], [5, 5], r"events must not exceed total; see events\[1\]"),
    ([0, 0], [5, 0], r"total must be at least 1; see total\[1\]"),
    ([1, 1], [5, -5], r"total must not be negative; see total\[1\]"),
    ([1.5, 1], [5, 5], r"events must be whole numbers; see events\[0\]"),
    ([1, math.nan], [5, 5], r"events must hold finite numbers; see events\[1\]"),
    ([1, 1], [5, math.inf], r"total must hold finite numbers; see total\[1\]"),
    (["two"], [5], r"events must hold numbers only"),
    ([None], [5], r"events must hold"),
    ([1], [1e13], r"total must not exceed 1e\+12; see total\[0\]"),
]


@pytest.mark.parametrize(("events", "total", "message"), REFUSED_COUNTS)
def test_impossible_counts_are_refused(events, total, message):
    with pytest.raises(ValueError, match="^" + message):
        pool_proportions(events, total)


REFUSED_ESTIMATES = [
    ([1.0], [0.0], r"variance must be above 0; see variance\[0\]"),
    ([1.0, 2.0], [1.0, -1.0], r"variance must be above 0; see variance\[1\]"),
    ([math.nan], [1.0], r"estimate must hold finite numbers"),
    ([1.0], [math.inf], r"variance must hold finite numbers"),
    ([1.0, 2.0], [1.0], r"estimate and variance must be equally long"),
    ([1e61], [1.0], r"estimate must lie within plus or minus 1e\+60"),
    ([1.0], [1e-61], r"variance must lie between 1e-60 and 1e\+60"),
    ([1.0], [1e61], r"variance must lie between 1e-60 and 1e\+60"),
    (1.0, 1.0, r"estimate must be a flat list"),
]


@pytest.mark.parametrize(("estimate", "variance", "message"), REFUSED_ESTIMATES)
def test_impossible_estimates_are_refused(estimate, variance, message):
    with pytest.raises(ValueError, match="^" + message):
        pool_estimates(estimate, variance)


REFUSED_WORDS = [
    (
        {"between": "dersimonian-laird"},
        r"between 'dersimonian-laird' is not known; did you mean "
        r"'dersimonian_laird'\?",
    ),
    ({"between": "reml"}, r"between 'reml' is not known"),
    ({"interval": "hartung_knap"}, r"interval 'hartung_knap' .* 'hartung_knapp'\?"),
    ({"level": 95}, r"level must lie between 0 and 1, as 0\.95; got 95"),
    ({"level": 0}, r"level must"),
    ({"level": math.nan}, r"level must"),
]


@pytest.mark.parametrize(("options", "message"), REFUSED_WORDS)
def test_unknown_options_are_refused_with_the_nearest_word(options, message):
    with pytest.raises(ValueError, match="^" + message):
        pool_proportions([1, 2, 3], [9, 9, 9], **options)
    with pytest.raises(ValueError, match="^" + message):
        pool_estimates([1, 2, 3], [9, 9, 9], **options)
    with pytest.raises(ValueError, match="^" + message):
        pool_proportions([], [], **options)


def test_unknown_scale_is_refused():
    with pytest.raises(ValueError, match=r"^scale 'logits' is not known; did you mean 'logit'\?"):
        pool_proportions([1, 2], [9, 9], scale="logits")


@pytest.mark.parametrize("pool", [pool_proportions_grid, pool_estimates_grid])
def test_a_grid_over_other_studies_is_refused(pool):
    with pytest.raises(
        ValueError, match=r"^grid must have one column a study; got 3 columns for 2"
    ):
        pool([1, 2], [9, 9], overall(3))


@pytest.mark.parametrize(("x", "n"), [(0, 12), (3, 12), (12, 12), (1, 1)])
@pytest.mark.parametrize("interval", ["ordinary", "hartung_knapp_floor"])
def test_one_study_keeps_its_proportion_and_exact_interval(x, n, interval):
    pooled = pool_proportions([x], [n], interval=interval, level=0.9)
    second = stats.binomtest(x, n).proportion_ci(0.9, method="exact")
    assert (pooled.status, pooled.interval, pooled.k) == ("one_study", "clopper_pearson", 1)
    assert pooled.estimate == x / n
    assert (pooled.low, pooled.high) == pytest.approx((second.low, second.high), rel=1e-9)
    assert pooled.weights == (1.0,)
    for name in ("tau2", "tau2_low", "q", "df", "p", "i2", "i2_from_q", "prediction_low"):
        assert math.isnan(getattr(pooled, name)), name


def test_one_study_has_a_value_on_the_scale_only_where_no_half_was_added():
    inside, end = pool_proportions([3], [12]), pool_proportions([0], [12])
    assert inside.estimate_on_scale == pytest.approx(math.log(3 / 9))
    assert inside.se_on_scale == pytest.approx(math.sqrt(1 / 3 + 1 / 9))
    assert math.isnan(end.estimate_on_scale)
    assert math.isnan(end.se_on_scale)
    assert end.notes == ()


def test_one_estimate_keeps_its_ordinary_interval():
    pooled = pool_estimates([2.0], [0.25], interval="hartung_knapp_floor")
    assert (pooled.status, pooled.interval) == ("one_study", "ordinary")
    assert (pooled.low, pooled.high) == pytest.approx((2 - 0.97998, 2 + 0.97998), abs=1e-5)
    assert math.isnan(pooled.tau2)
    assert math.isnan(pooled.prediction_high)


def test_notes_name_added_halves_and_spread_at_zero():
    assert pool_proportions([0, 2, 3], [20, 21, 22]).notes == ("tau2_at_zero", "half_added")
    assert pool_proportions([1, 12, 3], [20, 21, 22]).notes == ()


def test_an_estimator_that_gives_up_says_so(monkeypatch):
    def stuck(studies):
        return BetweenStudy(np.full(studies.k.size, 0.5), np.zeros(studies.k.size, dtype=bool))

    monkeypatch.setitem(ESTIMATORS, "stuck", stuck)
    pooled = pool_estimates([1.0, 2.0], [0.5, 0.5], between="stuck")
    assert (pooled.status, pooled.converged, pooled.tau2) == ("not_converged", False, 0.5)


def test_level_widens_every_interval():
    narrow = pool_proportions([1, 12, 3], [20, 21, 22], level=0.8)
    wide = pool_proportions([1, 12, 3], [20, 21, 22], level=0.99)
    for name in ("low", "prediction_low", "tau2_low"):
        assert getattr(wide, name) <= getattr(narrow, name)
    for name in ("high", "prediction_high", "tau2_high"):
        assert getattr(wide, name) > getattr(narrow, name)
    assert (narrow.level, wide.level) == (0.8, 0.99)


def test_record_is_plain_data():
    plain = pool_proportions([0, 12, 3], [20, 21, 22]).to_dict()
    again = json.loads(json.dumps(plain, allow_nan=False))
    assert again["status"] == "pooled"
    assert {"k", "estimate", "low", "high", "tau2", "q", "df", "p", "i2", "weights"} <= set(again)
    assert all(type(share) is float for share in plain["weights"])
    assert type(plain["k"]) is int
    assert type(plain["floor_active"]) is bool


def test_lists_arrays_and_series_give_the_same_answer():
    events, total = [1, 12, 3], [20, 21, 22]
    expected = pool_proportions(events, total)
    assert pool_proportions(np.array(events), np.array(total, dtype=np.int32)) == expected
    assert pool_proportions(pd.Series(events), pd.Series(total)) == expected
