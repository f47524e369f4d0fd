"""Tests of difference between levels: printed values, second routes, and degenerate levels."""

import math

import numpy as np
import pytest
import statsmodels.api as sm
from scipy import optimize, stats

from evsyn.effects.proportions import logit_effects
from evsyn.pooling.binomial_normal import fit_binomial_normal
from evsyn.pooling.strata_exact import strata_test_exact
from evsyn.pooling.strata_test import StrataStatus
from evsyn.pooling.strata_two_step import q_between, q_between_levels, strata_test_two_step

# Made up to exercise the code; no result below is held against them, only second routes.
EVENTS = np.array([2, 0, 5, 1, 13, 6, 3, 9, 1, 8, 12])
TOTAL = np.array([42, 17, 32, 55, 148, 56, 60, 71, 15, 44, 50])
LEVELS = list("aaaabbbbccc")


def test_exact_form_by_a_second_optimiser(by_scipy):
    test = strata_test_exact(EVENTS, TOTAL, LEVELS)
    design = (np.array(LEVELS)[:, None] == np.array(["a", "b", "c"])).astype(float)

    def loss(point, columns):
        return -by_scipy(EVENTS, TOTAL, columns @ point[:-1], abs(point[-1]))

    options = {"xatol": 1e-7, "fatol": 1e-11, "maxiter": 4000}
    full = optimize.minimize(
        loss, [-3.0, -2.5, -1.2, 0.4], (design,), method="Nelder-Mead", options=options
    )
    null = optimize.minimize(
        loss, [-2.3, 0.7], (np.ones((11, 1)),), method="Nelder-Mead", options=options
    )
    ratio = 2 * (null.fun - full.fun)
    assert test.statistic == pytest.approx(ratio / 2, abs=1e-7)
    assert (test.df1, test.df2) == (2, 8)
    assert test.p == pytest.approx(stats.f.sf(ratio / 2, 2, 8), abs=1e-7)
    assert math.sqrt(test.tau2) == pytest.approx(abs(full.x[-1]), abs=1e-4)
    gaps = {(d.first, d.second): d for d in test.differences}
    assert set(gaps) == {("a", "b"), ("a", "c"), ("b", "c")}
    assert gaps["a", "c"].estimate == pytest.approx(full.x[0] - full.x[2], abs=1e-4)


def test_standard_error_of_a_difference_by_second_differences(by_scipy):
    # Rare events and wide spread, so that the centres of the levels hang together through tau.
    events = [0, 0, 5, 1, 13, 0, 0, 9, 0, 1, 12]
    test = strata_test_exact(events, TOTAL, LEVELS)
    design = (np.array(LEVELS)[:, None] == np.array(["a", "b", "c"])).astype(float)
    h, size = 1e-3, 4

    def loss(point):
        return -by_scipy(events, TOTAL, design @ point[:-1], point[-1])

    found = optimize.minimize(loss, [-3.0, -3.0, -3.0, math.sqrt(test.tau2)], method="Nelder-Mead")
    at = optimize.minimize(
        loss, found.x, method="Nelder-Mead", options={"xatol": 1e-7, "fatol": 1e-12}
    ).x
    steps = np.eye(size) * h
    hessian = np.array(
        [
            [
                loss(at + a + b) - loss(at + a - b) - loss(at - a + b) + loss(at - a - b)
                for b in steps
            ]
            for a in steps
        ]
    )
    covariance = np.linalg.inv(hessian / (4 * h**2))
    contrast = np.array([1, 0, -1, 0])
    gap = test.differences[1]
    se = math.sqrt(contrast @ covariance @ contrast)
    assert (gap.first, gap.second) == ("a", "c")
    assert gap.se == pytest.approx(se, rel=2e-4)
    t = stats.t.ppf(0.975, 8)
    assert gap.low == pytest.approx(gap.estimate - t * gap.se)
    assert gap.high == pytest.approx(gap.estimate + t * gap.se)


def test_two_step_form_by_weighted_least_squares():
    effects = logit_effects(EVENTS, TOTAL)
    test = strata_test_two_step(effects.estimate, effects.variance, LEVELS, level=0.9)
    design = (np.array(LEVELS)[:, None] == np.array(["a", "b", "c"])).astype(float)
    wls = sm.WLS(effects.estimate, design, weights=1 / (effects.variance + test.tau2)).fit()
    # statsmodels scales by the residuals; the floor keeps the scale at 1 or above.
    shrink = min(1.0, wls.scale)
    wald = wls.f_test("x1 = x2, x1 = x3")
    assert test.statistic == pytest.approx(float(wald.fvalue) * shrink, rel=1e-6)
    assert test.p == pytest.approx(stats.f.sf(test.statistic, 2, 8), rel=1e-9)
    gap = wls.t_test("x1 - x2 = 0")
    difference = test.differences[0]
    assert difference.estimate == pytest.approx(gap.effect.item(), rel=1e-7)
    assert difference.se == pytest.approx(gap.sd.item() / math.sqrt(shrink), rel=1e-6)
    assert difference.high - difference.estimate == pytest.approx(
        stats.t.ppf(0.95, 8) * difference.se
    )


@pytest.mark.parametrize("spread", [0.05, 30.0])
def test_floor_holds_and_gives_way(spread):
    # Studies closer than chance allows, then studies with one far off in a level of small ones.
    y = np.array([0.0, 0.01, 0.02, 0.5, 0.51, 0.52]) * spread
    v = np.array([0.01, 4.0, 4.0, 0.01, 4.0, 4.0])
    test = strata_test_two_step(y, v, list("aaabbb"))
    design = np.repeat(np.eye(2), 3, axis=0)
    wls = sm.WLS(y, design, weights=1 / (v + test.tau2)).fit()
    free = float(wls.f_test("x1 = x2").fvalue)
    assert test.statistic == pytest.approx(free * min(1.0, wls.scale), rel=1e-6)


def test_equal_levels_do_not_differ():
    events, total = np.tile([2, 0, 5, 1], 2), np.tile([42, 17, 32, 55], 2)
    levels = list("aaaabbbb")
    exact = strata_test_exact(events, total, levels)
    assert exact.statistic == pytest.approx(0, abs=1e-8)
    assert exact.p == pytest.approx(1, abs=1e-4)
    assert exact.differences[0].estimate == pytest.approx(0, abs=1e-8)
    effects = logit_effects(events, total)
    two_step = strata_test_two_step(effects.estimate, effects.variance, levels)
    assert two_step.statistic == pytest.approx(0, abs=1e-20)
    assert q_between_levels(effects.estimate, effects.variance, levels).q == pytest.approx(0)


def test_study_order_and_complement():
    shuffle = np.random.default_rng(3).permutation(11)
    one = strata_test_exact(EVENTS, TOTAL, LEVELS)
    other = strata_test_exact(EVENTS[shuffle], TOTAL[shuffle], [LEVELS[i] for i in shuffle])
    mirror = strata_test_exact(TOTAL - EVENTS, TOTAL, LEVELS)
    assert other.statistic == pytest.approx(one.statistic, abs=1e-8)
    assert mirror.statistic == pytest.approx(one.statistic, abs=1e-8)
    assert mirror.differences[0].estimate == pytest.approx(-one.differences[0].estimate, abs=1e-7)


def test_small_levels_are_left_out_and_change_nothing():
    with_small = strata_test_exact([*EVENTS, 3, 4], [*TOTAL, 9, 9], [*LEVELS, "d", "d"])
    without = strata_test_exact(EVENTS, TOTAL, LEVELS)
    assert with_small.left_out == ("d",)
    assert with_small.levels == ("a", "b", "c")
    assert with_small.k_by_level == (4, 4, 3)
    assert with_small.statistic == pytest.approx(without.statistic, abs=1e-9)


def test_one_level_is_no_test():
    exact = strata_test_exact([1, 2, 3, 4], [9, 9, 9, 9], list("aaab"))
    assert exact.status is StrataStatus.TOO_FEW_LEVELS
    assert math.isnan(exact.p)
    two_step = strata_test_two_step([1.0, 2.0], [1.0, 1.0], ["a", "b"])
    assert two_step.status is StrataStatus.TOO_FEW_LEVELS
    assert two_step.levels == ()
    assert strata_test_exact([], [], []).status is StrataStatus.TOO_FEW_LEVELS


@pytest.mark.parametrize(
    ("sizes", "exploratory"), [((3, 9), True), ((5, 5), False), ((6, 4), True), ((5, 6), False)]
)
def test_exploratory_below_five_in_a_level_or_ten_in_all(sizes, exploratory):
    levels = ["a"] * sizes[0] + ["b"] * sizes[1]
    test = strata_test_two_step(np.zeros(len(levels)), np.ones(len(levels)), levels)
    assert test.exploratory is exploratory


def test_level_without_an_event_enters_at_its_limit():
    events = np.array([3, 5, 2, 6, 0, 0, 0])
    total = np.array([60, 70, 55, 65, 40, 50, 30])
    test = strata_test_exact(events, total, list("aaaabbb"))
    # The likelihood of the empty level goes to 1, so only level a counts in the larger model.
    full = fit_binomial_normal(events[:4], total[:4]).loglik
    null = fit_binomial_normal(events, total).loglik
    assert test.status is StrataStatus.TESTED
    assert test.statistic == pytest.approx(2 * (full - null), abs=1e-9)
    # The limit is approached from below by a very small chance in that level.
    nearly = full + stats.binom.logpmf(0, total[4:], 1e-10).sum()
    assert test.statistic == pytest.approx(2 * (nearly - null), abs=1e-6)
    assert math.isnan(test.differences[0].estimate)


def test_counts_that_say_nothing():
    nothing = strata_test_exact([0] * 6, [9] * 6, list("aaabbb"))
    assert nothing.status is StrataStatus.NO_INFORMATION
    split = strata_test_exact([0] * 3 + [9] * 3, [9] * 6, list("aaabbb"))
    assert split.status is StrataStatus.NOT_CONVERGED
    assert math.isnan(split.p)


def mantel_haenszel_odds_ratio(tables):
    """Log odds ratio and its Robins-Breslow-Greenland standard error."""
    table = sm.stats.StratifiedTable(
        [np.array([[a, n1 - a], [c, n2 - c]], dtype=float) for a, n1, c, n2 in tables]
    )
    return table.logodds_pooled, table.logodds_pooled_se


def test_q_between_of_a_published_common_effect_analysis(printed):
    # Huang ST, et al. Medicine 2018;97:e11960, Fig 4: four subgroups, Mantel-Haenszel odds ratios
    # rebuilt by statsmodels; printed test of subgroup differences chi2 1.96, df 3, P 0.58.
    groups = [
        [(1, 36, 4, 36)],
        [(1, 12, 1, 10), (15, 33, 15, 33)],
        [(1, 33, 3, 33)],
        [(1, 14, 2, 14), (4, 29, 4, 29)],
    ]
    pooled = np.array([mantel_haenszel_odds_ratio(group) for group in groups])
    between = q_between(*pooled.T)
    assert between.q == printed("1.96")
    assert between.df == 3
    assert between.p == printed("0.58")


def test_q_between_of_a_published_random_effects_analysis(printed):
    # Sun R, et al. Medicine 2019;98:e14713, Fig 4C: two subgroups of risk ratios, printed 0.61
    # (0.42-0.88) and 0.52 (0.39-0.70); test of subgroup differences chi2 0.45, df 1, P 0.50. The
    # paper takes DerSimonian-Laird with Q about the Mantel-Haenszel estimate, redone here.
    everyone = [
        (6, 29, 15, 30),
        (11, 33, 22, 33),
        (20, 57, 15, 51),
        (17, 53, 28, 53),
        (8, 30, 17, 30),
    ]
    groups = [everyone, [everyone[i] for i in (0, 1, 3, 4)]]
    pooled = []
    for group in groups:
        a, n1, c, n2 = np.array(group, dtype=float).T
        y, v = np.log(a * n2 / (c * n1)), 1 / a - 1 / n1 + 1 / c - 1 / n2
        centre = np.log((a * n2 / (n1 + n2)).sum() / (c * n1 / (n1 + n2)).sum())
        w = 1 / v
        tau2 = max(0, ((w @ (y - centre) ** 2) - (y.size - 1)) / (w.sum() - (w**2).sum() / w.sum()))
        weight = 1 / (v + tau2)
        pooled.append((weight @ y / weight.sum(), 1 / math.sqrt(weight.sum())))
    assert math.exp(pooled[0][0]) == printed("0.61")
    assert math.exp(pooled[1][0]) == printed("0.52")
    between = q_between(*np.array(pooled).T)
    assert between.q == printed("0.45")
    assert between.p == printed("0.50")


# Zegeye A, et al. PLoS ONE 2019;14:e0210422, Fig 4: prevalence in percent with 95% limits.
ZEGEYE = {
    "SNNPR": [
        (26.0, 22.18, 29.82),
        (24.5, 19.28, 29.72),
        (20.8, 4.56, 37.04),
        (24.7, 19.57, 29.83),
        (20.0, 16.04, 23.96),
    ],
    "Amhara": [(10.0, 6.48, 13.52)],
    "Tigray": [(18.0, 11.93, 24.07), (11.5, 7.08, 15.92), (55.8, 46.91, 64.69), (8.4, 5.1, 11.7)],
    "Oromia": [(29.67, 20.28, 39.06), (12.0, 4.22, 19.78), (20.7, 9.79, 31.61)],
}


def test_q_between_from_the_printed_subgroups():
    # The paper prints four subgroup lines (23.61, 21.05-26.17; 10.00, 6.48-13.52; 22.87,
    # 8.27-37.46; 20.54, 9.73-31.36) and no test: Q from those lines must be Q from the studies,
    # within the rounding of the lines.
    rows = [(label, *row) for label, study_rows in ZEGEYE.items() for row in study_rows]
    labels, estimate, low, high = zip(*rows, strict=True)
    se = (np.array(high) - np.array(low)) / (2 * 1.96)
    ours = q_between_levels(estimate, se**2, labels)
    lines = np.array(
        [(23.61, 21.05, 26.17), (10.0, 6.48, 13.52), (22.87, 8.27, 37.46), (20.54, 9.73, 31.36)]
    )
    printed_lines = q_between(lines[:, 0], (lines[:, 2] - lines[:, 1]) / (2 * 1.96))
    assert ours.df == 3
    assert ours.q == pytest.approx(printed_lines.q, rel=0.005)
    assert ours.p == pytest.approx(stats.chi2.sf(ours.q, 3), rel=1e-9)


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (lambda: strata_test_exact([1, 2], [5, 6], ["a"]), "one entry a study"),
        (lambda: strata_test_exact([9, 2], [5, 6], ["a", "a"]), "exceed"),
        (lambda: strata_test_exact([1, 2], [5, 6], ["a", "a"], level=2), "level"),
        (lambda: strata_test_two_step([1, 2], [0, 1], ["a", "a"]), "variance"),
        (lambda: strata_test_two_step([1, 2], [1, 1], ["a"]), "one entry a study"),
        (lambda: q_between_levels([1, 2], [1, 1], ["a"]), "one entry a study"),
        (lambda: q_between([1, 2], [1]), "equally long"),
        (lambda: q_between([1, 2], [1, 0]), "variance"),
    ],
)
def test_refusals(call, said):
    with pytest.raises(ValueError, match=said):
        call()
