"""Pooling by the exact model: published analyses, statuses, and what the record promises."""

import json
import math

import numpy as np
import pytest
import statsmodels.api as sm
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import special, stats

from evsyn.pooling.binomial_normal import (
    fit_binomial_normal,
    likelihood_ratio_heterogeneity,
    pool_binomial_normal,
    profile_binomial_normal,
)
from evsyn.pooling.result import Status

STENT_OVER = ([2, 0, 5, 1, 13, 19], [42, 17, 32, 55, 48, 56])
RARE = ([0, 1, 0, 3, 2, 0, 5], [20, 45, 33, 120, 60, 15, 210])

# Jayasooriya S, et al. Patients with presumed tuberculosis in sub-Saharan Africa that are not
# diagnosed with tuberculosis. Thorax 2023;78:50-60, doi 10.1136/thoraxjnl-2021-217663: events and
# totals from the authors' public data table, scale results from its statistical appendix, pooled
# percentages also in the abstract. Model stated there: binomial-normal, maximum likelihood.
PUBLISHED = {
    "passive, no clinical diagnoses": {
        "counts": (
            [1184, 963, 125, 160, 107, 114, 1685, 455, 257],
            [1770, 1196, 150, 234, 135, 181, 2091, 1186, 395],
        ),
        "centre": "0.8757",
        "se": "0.2078",
        "tau2": "0.3714",
        "q": "679.9414",
        "ratio": "727.2051",
        "percent": ("70.6", "61.5", "78.3"),
    },
    "active case finding": {
        "counts": ([411, 998, 510, 121], [428, 1041, 544, 160]),
        "centre": "2.5537",
        "se": "0.4199",
        "tau2": "0.6678",
        "q": "81.2135",
        "ratio": "67.4266",
        "percent": ("92.8", "85.0", "96.7"),
    },
}


@pytest.mark.parametrize("paper", PUBLISHED.values(), ids=PUBLISHED)
def test_published_binomial_normal_poolings(printed, paper):
    pooled = pool_binomial_normal(*paper["counts"])
    assert pooled.estimate_on_scale == printed(paper["centre"])
    assert pooled.se_on_scale == printed(paper["se"])
    assert pooled.tau2 == printed(paper["tau2"])
    assert pooled.q == printed(paper["q"])
    assert pooled.df == len(paper["counts"][0]) - 1
    ratio = likelihood_ratio_heterogeneity(*paper["counts"])
    assert ratio.statistic == printed(paper["ratio"])
    assert ratio.df == pooled.df
    # The paper prints the normal (Wald) interval; ours is on t and so wider.
    centre, low, high = paper["percent"]
    assert 100 * pooled.estimate == printed(centre)
    wald = 100 * special.expit(
        pooled.estimate_on_scale + np.array([-1, 1]) * 1.959964 * pooled.se_on_scale
    )
    assert wald[0] == printed(low)
    assert wald[1] == printed(high)
    assert 100 * pooled.low < wald[0]
    assert 100 * pooled.high > wald[1]


@pytest.mark.parametrize("counts", [STENT_OVER, RARE])
def test_likelihood_ratio_is_the_deviance_of_a_logistic_regression(counts):
    x, n = map(np.array, counts)
    model = sm.GLM(np.column_stack([x, n - x]), np.ones(x.size), family=sm.families.Binomial())
    ratio = likelihood_ratio_heterogeneity(x, n)
    assert ratio.statistic == pytest.approx(model.fit().deviance, rel=1e-8)
    assert ratio.p == pytest.approx(stats.chi2.sf(ratio.statistic, x.size - 1), rel=1e-10)


def test_likelihood_ratio_at_the_ends():
    assert likelihood_ratio_heterogeneity([0, 0], [5, 9]).statistic == 0
    assert likelihood_ratio_heterogeneity([5, 9], [5, 9]).p == 1
    with pytest.raises(ValueError, match="at least 2"):
        likelihood_ratio_heterogeneity([1], [2])


@pytest.mark.parametrize("level", [0.95, 0.9])
@pytest.mark.parametrize("counts", [STENT_OVER, RARE])
def test_limits_and_prediction_follow_their_formulas(counts, level):
    fit = fit_binomial_normal(*counts)
    profile = profile_binomial_normal(*counts, fit, level=level)
    pooled = pool_binomial_normal(*counts, level=level)
    t = stats.t.ppf((1 + level) / 2, fit.k - 1)
    assert pooled.status is Status.POOLED
    assert pooled.estimate == pytest.approx(special.expit(fit.mu), rel=1e-12)
    assert pooled.low == pytest.approx(special.expit(fit.mu - t * fit.se), rel=1e-10)
    assert pooled.high == pytest.approx(special.expit(fit.mu + t * fit.se), rel=1e-10)
    spread = t * math.sqrt(fit.tau**2 + fit.se**2)
    assert pooled.prediction_low == pytest.approx(special.expit(fit.mu - spread), rel=1e-10)
    assert pooled.prediction_high == pytest.approx(special.expit(fit.mu + spread), rel=1e-10)
    assert pooled.prediction_df == fit.k - 1
    assert pooled.tau2_low == pytest.approx(profile.tau_low**2, abs=1e-9)
    assert pooled.tau2_high == pytest.approx(profile.tau_high**2, rel=1e-7)


def test_q_and_i2_are_those_of_study_log_odds():
    x, n = map(np.array, STENT_OVER)
    half = 0.5 * (x == 0)
    y = np.log((x + half) / (n - x + half))
    w = 1 / (1 / (x + half) + 1 / (n - x + half))
    q = w @ (y - w @ y / w.sum()) ** 2
    typical = 5 * w.sum() / (w.sum() ** 2 - (w**2).sum())
    pooled = pool_binomial_normal(x, n)
    assert pooled.q == pytest.approx(q, rel=1e-12)
    assert pooled.p == pytest.approx(stats.chi2.sf(q, 5), rel=1e-10)
    assert pooled.i2_from_q == pytest.approx(1 - 5 / q, rel=1e-12)
    assert pooled.i2 == pytest.approx(pooled.tau2 / (pooled.tau2 + typical), rel=1e-12)
    assert pooled.notes == ("half_added_in_q",)


def test_without_spread_weights_are_the_totals():
    pooled = pool_binomial_normal(*RARE)
    assert pooled.tau2 == 0
    assert pooled.tau2_low == 0
    assert "tau2_at_zero" in pooled.notes
    assert pooled.weights == pytest.approx(np.array(RARE[1]) / 503)


def test_with_wide_spread_weights_even_out():
    weights = pool_binomial_normal([30, 900, 10], [100, 1000, 1000]).weights
    assert sum(weights) == pytest.approx(1)
    assert max(weights) < 0.36


def test_no_study():
    pooled = pool_binomial_normal([], [])
    assert pooled.status is Status.NO_STUDY
    assert pooled.k == 0
    assert math.isnan(pooled.estimate)


def test_one_study_keeps_its_exact_interval():
    pooled = pool_binomial_normal([3], [40])
    assert pooled.status is Status.ONE_STUDY
    assert pooled.model == "binomial_normal"
    assert pooled.interval == "clopper_pearson"
    assert pooled.estimate == 3 / 40
    assert pooled.low == pytest.approx(stats.beta.ppf(0.025, 3, 38))
    assert pooled.high == pytest.approx(stats.beta.ppf(0.975, 4, 37))
    assert math.isnan(pooled.tau2)


def test_all_zero_and_all_full_keep_the_total(printed):
    # 0 of 109 in four studies: exact limits 0 and 0.033277, computed apart; the closed form is
    # 1 - 0.025 ** (1 / 109).
    zero = pool_binomial_normal([0, 0, 0, 0], [20, 33, 15, 41])
    assert zero.status is Status.ALL_ZERO
    assert (zero.estimate, zero.low) == (0, 0)
    assert zero.high == printed("0.033277")
    full = pool_binomial_normal([20, 33, 15, 41], [20, 33, 15, 41])
    assert full.status is Status.ALL_FULL
    assert full.low == pytest.approx(1 - zero.high)
    for pooled in (zero, full):
        assert math.isnan(pooled.tau2)
        assert math.isnan(pooled.prediction_low)


def test_a_fit_without_maximum_gives_no_estimate():
    pooled = pool_binomial_normal([0, 5, 0], [9, 5, 7])
    assert pooled.status is Status.NOT_CONVERGED
    assert not pooled.converged
    plain = pooled.to_dict()
    for name in ("estimate", "low", "high", "tau2", "tau2_high", "prediction_low", "i2"):
        assert plain[name] is None
    assert plain["q"] > 0


def test_two_studies_are_pooled_on_one_degree_of_freedom():
    pooled = pool_binomial_normal([3, 9], [40, 60])
    assert pooled.status is Status.POOLED
    assert pooled.prediction_df == 1


SERIES = st.lists(
    st.integers(1, 400).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))),
    min_size=0,
    max_size=8,
)


@given(SERIES)
@settings(max_examples=40, deadline=None)
def test_every_record_is_in_order_and_serialises(rows):
    events, total = [x for x, _ in rows], [n for _, n in rows]
    pooled = pool_binomial_normal(events, total)
    json.dumps(pooled.to_dict(), allow_nan=False)
    assert pooled.k == len(rows)
    if pooled.status is not Status.POOLED:
        return
    ladder = [
        0,
        pooled.prediction_low,
        pooled.low,
        pooled.estimate,
        pooled.high,
        pooled.prediction_high,
        1,
    ]
    assert ladder == sorted(ladder)
    assert pooled.tau2_low <= pooled.tau2 <= pooled.tau2_high
    assert sum(pooled.weights) == pytest.approx(1)
    assert min(pooled.weights) >= 0


@pytest.mark.parametrize(
    ("events", "total", "said"),
    [
        ([1, 2], [5], "equally long"),
        ([[1, 2]], [[5, 6]], "flat list"),
        ([-1, 2], [5, 6], "negative"),
        ([7, 2], [5, 6], "must not exceed total"),
        ([0, 2], [0, 6], "at least 1"),
        ([math.nan, 2], [5, 6], "finite"),
        ([1, 2], [math.inf, 6], "finite"),
        ([1.5, 2], [5, 6], "whole"),
        (["a", 2], [5, 6], "numbers"),
    ],
)
def test_refusals_name_the_argument(events, total, said):
    with pytest.raises(ValueError, match=said):
        pool_binomial_normal(events, total)


@pytest.mark.parametrize("level", [0, 1, 95, math.nan])
def test_level_outside_is_refused(level):
    with pytest.raises(ValueError, match="level"):
        pool_binomial_normal(*RARE, level=level)
