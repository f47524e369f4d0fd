"""Pooling two arms: refusals, statuses, notes, second routes, classics, extremes."""

import json
import math

import numpy as np
import pytest
from scipy import stats
from statsmodels.stats.meta_analysis import combine_effects

from evsyn import pool_comparisons, pool_estimates, pool_means
from evsyn.pooling.comparisons import MODELS, pool_comparisons_grid
from evsyn.pooling.grid import overall
from tests.pooling.printed_comparisons import PRINTED
from tests.pooling.test_printed_classics import BCG, PRE_ECLAMPSIA

EACH = [(model, contrast) for model, contrasts in MODELS.items() for contrast in contrasts]
each_pair = pytest.mark.parametrize(("model", "contrast"), EACH)
COUNTS = ([4, 6, 3, 9], [123, 306, 231, 200], [11, 29, 11, 12], [139, 303, 220, 190])


def test_bcg_by_dersimonian_laird(printed):
    # Colditz GA et al. JAMA 1994;271:698-702: 0.49 (0.34 to 0.70); result from memory.
    pooled = pool_comparisons(*BCG.T)
    assert pooled.estimate == printed("0.49")
    assert pooled.low == printed("0.34")
    assert pooled.high == printed("0.70")


def test_bcg_odds_ratios_common_and_by_maximum_likelihood(printed):
    # van Houwelingen HC, Arends LR, Stijnen T. Stat Med 2002;21:589-624; results from memory.
    common = pool_comparisons(*BCG.T, contrast="odds_ratio", model="common")
    assert common.estimate_on_scale == printed("-0.436")
    assert common.se_on_scale == printed("0.042")
    pooled = pool_comparisons(*BCG.T, contrast="odds_ratio", between="ml")
    assert pooled.estimate_on_scale == printed("-0.742")
    assert pooled.se_on_scale == printed("0.178")
    assert pooled.tau2 == printed("0.302")


def test_pre_eclampsia(printed):
    # Hardy RJ, Thompson SG. Stat Med 1996;15:619-629; Biggerstaff BJ, Tweedie RL. Stat Med
    # 1997;16:753-768; counts and results from memory.
    common = pool_comparisons(*PRE_ECLAMPSIA.T, contrast="odds_ratio", model="common")
    assert (common.estimate, common.low, common.high) == tuple(
        map(printed, ("0.67", "0.56", "0.80"))
    )
    assert common.q == printed("27.3")
    pooled = pool_comparisons(*PRE_ECLAMPSIA.T, contrast="odds_ratio")
    assert (pooled.estimate, pooled.low, pooled.high) == tuple(
        map(printed, ("0.60", "0.40", "0.89"))
    )
    assert pooled.tau2 == printed("0.23")
    assert pool_comparisons(*PRE_ECLAMPSIA.T, contrast="odds_ratio", between="ml").tau2 == printed(
        "0.24"
    )


# The library does not cut tau2 at zero, so sets with spread are taken.
@pytest.mark.parametrize("name", ["curve", "kyphosis"])
@pytest.mark.parametrize("contrast", ["mean_difference", "standardised_mean_difference"])
def test_means_by_a_second_library(name, contrast):
    columns = PRINTED[name].columns
    random = pool_means(*columns, contrast=contrast)
    common = pool_means(*columns, contrast=contrast, model="common")
    m1, s1, n1, m2, s2, n2 = columns
    if contrast == "mean_difference":
        y, v = m1 - m2, s1**2 / n1 + s2**2 / n2
    else:
        sd = np.sqrt(((n1 - 1) * s1**2 + (n2 - 1) * s2**2) / (n1 + n2 - 2))
        y = (1 - 3 / (4 * (n1 + n2) - 9)) * (m1 - m2) / sd
        v = (n1 + n2) / (n1 * n2) + y**2 / (2 * (n1 + n2 - 3.94))
    second = combine_effects(y, v, method_re="dl")
    assert random.estimate == pytest.approx(second.mean_effect_re, rel=1e-10)
    assert random.se_on_scale == pytest.approx(second.sd_eff_w_re, rel=1e-10)
    assert random.tau2 == pytest.approx(second.tau2, rel=1e-9, abs=1e-12)
    assert common.estimate == pytest.approx(second.mean_effect_fe, rel=1e-10)
    assert common.se_on_scale == pytest.approx(second.sd_eff_w_fe, rel=1e-10)
    assert common.q == pytest.approx(second.q, rel=1e-10)
    assert random.contrast == common.contrast == contrast


def test_common_effect_of_estimates_has_no_spread_and_no_prediction():
    y, v = np.array([0.1, 0.6, -0.2]), np.array([0.04, 0.09, 0.02])
    pooled = pool_estimates(y, v, model="common", level=0.9)
    assert (pooled.model, pooled.between, pooled.interval) == ("common_effect", "none", "ordinary")
    assert pooled.estimate == pytest.approx(np.average(y, weights=1 / v))
    half = stats.norm.ppf(0.95) / np.sqrt((1 / v).sum())
    assert pooled.high - pooled.estimate == pytest.approx(half)
    assert pooled.weights == pytest.approx(1 / v / (1 / v).sum())
    for name in ("tau2", "tau2_low", "tau2_high", "i2", "prediction_low", "prediction_df"):
        assert math.isnan(getattr(pooled, name)), name
    assert pooled.q == pytest.approx(((y - pooled.estimate) ** 2 / v).sum())
    assert pooled.notes == ()


def test_q_about_the_sums_changes_q_and_spread_and_says_so():
    usual = pool_comparisons(*BCG.T)
    other = pool_comparisons(*BCG.T, q_about="mantel_haenszel")
    sums = pool_comparisons(*BCG.T, model="mantel_haenszel")
    assert other.q == sums.q > usual.q
    assert other.tau2 > usual.tau2
    assert other.notes == ("q_about_mantel_haenszel",)
    w = 1 / (np.array([1 / a - 1 / n + 1 / c - 1 / m for a, n, c, m in BCG]))
    y = np.log([(a / n) / (c / m) for a, n, c, m in BCG])
    assert other.q == pytest.approx(w @ (y - sums.estimate_on_scale) ** 2)
    spread = (other.q - 12) / (w.sum() - (w**2).sum() / w.sum())
    assert other.tau2 == pytest.approx(spread)


REFUSED = [
    ({"contrast": "risk"}, "contrast 'risk' is not known; did you mean 'risk_ratio'"),
    ({"model": "fixed"}, "model 'fixed' is not known"),
    ({"model": "exact"}, "model 'exact' is not defined for contrast 'risk_ratio'; .* odds_ratio"),
    ({"model": "mantel_haenszel", "contrast": "peto"}, "not defined for contrast 'peto'"),
    ({"model": "common", "between": "ml"}, "between belongs to model 'random'"),
    ({"model": "common", "interval": "hartung_knapp"}, "interval belongs to model 'random'"),
    ({"model": "mantel_haenszel", "interval": "ordinary_t"}, "interval belongs to model 'random'"),
    ({"zero_cells": "none"}, "zero_cells 'none' is not known"),
    ({"zero_cells": "half_in_sums"}, "needs Mantel-Haenszel sums of a ratio"),
    (
        {"zero_cells": "half_in_sums", "model": "mantel_haenszel", "contrast": "risk_difference"},
        "needs Mantel-Haenszel sums of a ratio",
    ),
    ({"q_about": "mean"}, "q_about 'mean' is not known"),
    ({"q_about": "mantel_haenszel", "between": "ml"}, "q_about 'mantel_haenszel' needs"),
    ({"q_about": "mantel_haenszel", "model": "common"}, "q_about 'mantel_haenszel' needs"),
    ({"q_about": "mantel_haenszel", "contrast": "peto"}, "q_about 'mantel_haenszel' needs"),
    ({"level": 95}, "level must lie between 0 and 1"),
    ({"between": "reml"}, "between 'reml' is not known"),
]


@pytest.mark.parametrize(("options", "message"), REFUSED)
def test_options_that_mean_nothing_are_refused(options, message):
    with pytest.raises(ValueError, match=message):
        pool_comparisons(*COUNTS, **options)


def test_means_refuse_what_is_not_known():
    rows = ([1.0], [1.0], [9], [2.0], [1.0], [9])
    with pytest.raises(ValueError, match="contrast 'smd' is not known"):
        pool_means(*rows, contrast="smd")
    with pytest.raises(ValueError, match="model 'exact' is not known"):
        pool_means(*rows, model="exact")


def test_a_grid_over_other_studies_is_refused():
    with pytest.raises(ValueError, match="grid must have one column a study; got 3 columns for 4"):
        pool_comparisons_grid(*COUNTS, overall(3))


@each_pair
def test_every_model_answers_and_is_plain_data(model, contrast):
    pooled = pool_comparisons(*COUNTS, model=model, contrast=contrast)
    assert (pooled.status, pooled.k, pooled.contrast) == ("pooled", 4, contrast)
    assert pooled.low < pooled.estimate < pooled.high
    assert sum(pooled.weights) == pytest.approx(1)
    again = json.loads(json.dumps(pooled.to_dict(), allow_nan=False))
    assert again["contrast"] == contrast


@each_pair
def test_no_study(model, contrast):
    pooled = pool_comparisons([], [], [], [], model=model, contrast=contrast)
    assert (pooled.k, pooled.status, pooled.weights) == (0, "no_study", ())
    assert math.isnan(pooled.estimate)


@each_pair
def test_one_study(model, contrast):
    pooled = pool_comparisons([3], [20], [6], [22], model=model, contrast=contrast)
    assert (pooled.k, pooled.status, pooled.weights) == (1, "one_study", (1.0,))
    assert pooled.low < pooled.estimate < pooled.high
    assert math.isnan(pooled.q)
    assert pooled.interval == "ordinary"


@each_pair
@pytest.mark.parametrize("full", [False, True])
def test_no_event_anywhere(model, contrast, full):
    n = np.array([20, 22, 30])
    x = n if full else 0 * n
    pooled = pool_comparisons(x, n, x, n, model=model, contrast=contrast)
    if contrast == "risk_difference" and model != "mantel_haenszel":
        assert (pooled.status, pooled.estimate, pooled.k) == ("pooled", 0, 3)
        return
    assert pooled.status == "not_estimable"
    assert math.isnan(pooled.estimate)
    assert pooled.left_out == (() if contrast == "risk_difference" else (0, 1, 2))


@pytest.mark.parametrize("contrast", ["risk_ratio", "odds_ratio"])
def test_one_arm_without_any_event_leaves_the_sums_open(contrast):
    counts = ([0, 0, 0], [50, 60, 70], [3, 1, 2], [50, 60, 70])
    for options in ({"model": "mantel_haenszel"}, {"q_about": "mantel_haenszel"}):
        pooled = pool_comparisons(*counts, contrast=contrast, **options)
        assert (pooled.status, pooled.k) == ("not_estimable", 3)
        assert math.isnan(pooled.estimate)
    # With halves, as some print it, there is a number: it is that of the halves.
    half = pool_comparisons(
        *counts, contrast=contrast, model="mantel_haenszel", zero_cells="half_in_sums"
    )
    assert half.status == "pooled"
    assert pool_comparisons(*counts, contrast=contrast).corrected == (0, 1, 2)


def test_the_exact_model_says_where_there_is_no_ratio():
    pooled = pool_comparisons(
        [0, 0, 0], [50, 60, 70], [3, 1, 2], [50, 60, 70], contrast="odds_ratio", model="exact"
    )
    assert pooled.status == "not_estimable"


@each_pair
def test_large_and_small_studies_together(model, contrast):
    # Crude risks of 5% and 4% in a study of two million, and very small ones beside it.
    counts = (
        [5000, 1, 0, 2],
        [100_000, 12, 1, 20],
        [4000, 2, 1, 1],
        [100_000, 13, 1, 19],
    )
    pooled = pool_comparisons(*counts, model=model, contrast=contrast)
    assert pooled.status == "pooled"
    assert math.isfinite(pooled.low)
    assert math.isfinite(pooled.high)


def test_the_exact_model_refuses_what_it_cannot_sum():
    big = 10**7
    counts = ([3, big // 10], [20, big], [2, big // 10], [20, big])
    with pytest.raises(ValueError, match=r"model needs .* 1,000,000; see events_1\[1\]"):
        pool_comparisons(*counts, contrast="odds_ratio", model="exact")


def test_a_study_of_a_million_patients_by_the_exact_model():
    # So large a study, alone of its kind and without spread, is its own odds ratio.
    counts = ([50_000, 2, 3], [500_000, 30, 30], [48_000, 2, 3], [500_000, 30, 30])
    pooled = pool_comparisons(*counts, contrast="odds_ratio", model="exact")
    alone = pool_comparisons(*[c[:1] for c in counts], contrast="odds_ratio")
    assert pooled.tau2 == 0
    assert pooled.estimate_on_scale == pytest.approx(alone.estimate_on_scale, abs=2e-5)
    assert pooled.se_on_scale == pytest.approx(alone.se_on_scale, rel=1e-4)


@pytest.mark.parametrize("model", ["random", "common", "mantel_haenszel"])
@pytest.mark.parametrize("contrast", ["risk_ratio", "odds_ratio", "risk_difference"])
def test_studies_of_one_patient_an_arm_and_of_a_million_million(model, contrast):
    pooled = pool_comparisons(
        [1, 0, 10**11],
        [1, 1, 10**12],
        [0, 1, 10**11],
        [1, 1, 10**12],
        model=model,
        contrast=contrast,
    )
    assert pooled.status == "pooled"
    assert pooled.estimate == pytest.approx(0 if contrast == "risk_difference" else 1, abs=1e-9)


def test_limits_beyond_the_largest_float_are_infinite_and_not_a_warning():
    pooled = pool_comparisons(
        [0, 10**12],
        [10**12, 10**12],
        [10**12, 0],
        [10**12, 10**12],
        contrast="odds_ratio",
        interval="hartung_knapp",
    )
    assert 0 <= pooled.low < 1e-300
    assert pooled.high == math.inf
    assert pooled.to_dict()["high"] is None


def test_ten_thousand_studies():
    rng = np.random.default_rng(3)
    n = rng.integers(20, 200, 10_000)
    x_1, x_2 = rng.binomial(n, 0.2), rng.binomial(n, 0.2)
    for model in ("random", "common", "mantel_haenszel"):
        pooled = pool_comparisons(x_1, n, x_2, n, contrast="odds_ratio", model=model)
        assert pooled.estimate == pytest.approx(1, abs=0.03)
        assert len(pooled.weights) == 10_000
