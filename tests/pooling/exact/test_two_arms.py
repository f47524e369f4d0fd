"""The exact model for two arms: print, second routes for likelihood and fit, corners."""

import math

import mpmath as mp
import numpy as np
import pytest
from scipy import optimize, stats
from scipy.integrate import quad
from scipy.stats.contingency import odds_ratio
from statsmodels.discrete.conditional_models import ConditionalLogit

from evsyn import pool_comparisons
from evsyn.effects.two_arms import read_two_arms
from evsyn.pooling.binomial_normal.fit import fit_at_tau
from evsyn.pooling.binomial_normal.likelihood import study_terms
from evsyn.pooling.hypergeometric_normal.tables import conditional_tables
from tests.pooling.test_printed_classics import BCG

# Trials of anti-infective-treated central venous catheters: Niel-Weise BS et al. J Hosp Infect
# 2007;67:127-138 (events and patients, treated then standard), pooled in Stijnen T, Hamza TH,
# Ozdemir P. Stat Med 2010;29:3046-3067. Counts and results from memory.
CATHETERS = np.array(
    [
        (0, 116, 3, 117),
        (1, 44, 3, 35),
        (2, 208, 9, 195),
        (0, 130, 7, 136),
        (5, 151, 6, 157),
        (1, 98, 4, 139),
        (1, 174, 3, 177),
        (1, 74, 2, 39),
        (1, 97, 19, 103),
        (1, 113, 2, 122),
        (0, 66, 7, 64),
        (0, 70, 1, 58),
        (3, 188, 5, 175),
        (6, 187, 11, 180),
        (0, 118, 0, 105),
        (0, 252, 1, 262),
        (1, 345, 3, 362),
        (4, 64, 1, 69),
    ]
)
SMALL = np.array([(2, 20, 5, 22), (1, 15, 6, 14), (4, 30, 3, 28), (0, 12, 2, 13)])


def exact(table, **options):
    return pool_comparisons(*table.T, contrast="odds_ratio", model="exact", **options)


def test_catheters(printed):
    pooled = exact(CATHETERS)
    assert pooled.estimate_on_scale == printed("-1.353")
    assert pooled.se_on_scale == printed("0.351")
    assert pooled.tau == printed("0.833")
    assert (pooled.k, pooled.left_out) == (17, (14,))
    without = exact(np.delete(CATHETERS, 14, axis=0))
    assert np.delete(pooled.weights, 14) == pytest.approx(without.weights, rel=1e-6)
    assert pooled.weights[14] == 0


def log_likelihood(table, mu, tau):
    """By scipy: Fisher's noncentral hypergeometric distribution, integrated study by study."""
    total = 0.0
    for a, n1, c, n2 in table:

        def density(z, a=a, n1=n1, c=c, n2=n2):
            ratio = math.exp(mu + tau * z)
            return stats.nchypergeom_fisher.pmf(a, n1 + n2, a + c, n1, ratio) * stats.norm.pdf(z)

        total += math.log(quad(density, -8, 8, epsabs=1e-12, epsrel=1e-10, limit=200)[0])
    return total


@pytest.mark.parametrize(("mu", "tau"), [(-0.7, 0.5), (0.4, 1.3)])
def test_likelihood_by_scipy(mu, tau):
    tables = conditional_tables(read_two_arms(*SMALL.T))
    found = study_terms(tables, np.full(4, mu), tau, 64).loglik.sum()
    assert found == pytest.approx(log_likelihood(SMALL, mu, tau), abs=1e-8)


HARD = [
    (0, 300, 40, 280, -6.0, 3.0),
    (40, 300, 0, 280, -6.0, 3.0),
    (150, 300, 140, 280, 5.0, 4.0),
    (1, 1, 0, 1, -3.0, 5.0),
    (3, 2000, 5, 4000, 0.0, 0.01),
]


@pytest.mark.parametrize(("a", "n1", "c", "n2", "mu", "tau"), HARD)
def test_likelihood_in_forty_digits(a, n1, c, n2, mu, tau):
    with mp.workdps(40):
        events = a + c
        counts = range(max(0, events - n2), min(events, n1) + 1)
        weight = [mp.binomial(n1, j) * mp.binomial(n2, events - j) for j in counts]

        def density(z):
            theta = mp.mpf(mu) + mp.mpf(tau) * z
            total = sum(w * mp.exp((j - a) * theta) for w, j in zip(weight, counts, strict=True))
            return mp.binomial(n1, a) * mp.binomial(n2, c) / total * mp.npdf(z)

        expected = float(mp.log(mp.quad(density, mp.linspace(-12, 12, 25), maxdegree=6)))
    tables = conditional_tables(read_two_arms([a], [n1], [c], [n2]))
    found = study_terms(tables, np.array([mu]), tau, 256).loglik[0]
    assert found == pytest.approx(expected, abs=1e-9)


def test_maximum_by_scipy():
    pooled = exact(SMALL)
    second = optimize.minimize(
        lambda point: -log_likelihood(SMALL, point[0], abs(point[1])),
        [-0.8, 0.3],
        method="Nelder-Mead",
        options={"xatol": 1e-5, "fatol": 1e-9},
    )
    assert pooled.estimate_on_scale == pytest.approx(second.x[0], abs=2e-4)
    assert pooled.tau == pytest.approx(abs(second.x[1]), abs=2e-3)


@pytest.mark.parametrize("table", [SMALL, CATHETERS])
def test_without_spread_it_is_conditional_logistic_regression(table):
    arms = read_two_arms(*table.T)
    kept = arms.take(arms.informs_ratio)
    tables = conditional_tables(kept)
    found = fit_at_tau(tables, np.ones((tables.k, 1)), 0.0)
    rows = []
    for group, cells in enumerate(zip(kept.yes_1, kept.no_1, kept.yes_2, kept.no_2, strict=True)):
        for (event, arm), number in zip([(1, 1), (0, 1), (1, 0), (0, 0)], cells, strict=True):
            rows += [(event, arm, group)] * int(number)
    event, arm, group = np.array(rows).T
    second = ConditionalLogit(event, arm[:, None].astype(float), groups=group)
    # At our maximum the library's slope is nil; its curvature (by differences) gives our error.
    assert second.score(found.beta)[0] == pytest.approx(0, abs=1e-6)
    step = 1e-4
    curve = second.score(found.beta - step)[0] - second.score(found.beta + step)[0]
    assert found.covariance[0, 0] == pytest.approx(2 * step / curve, rel=1e-5)


def test_one_table_without_spread_is_the_conditional_odds_ratio():
    tables = conditional_tables(read_two_arms([7], [40], [15], [55]))
    found = fit_at_tau(tables, np.ones((1, 1)), 0.0).beta[0]
    second = odds_ratio(np.array([[7, 33], [15, 40]]), kind="conditional").statistic
    assert math.exp(found) == pytest.approx(second, rel=1e-6)


def test_moments_are_those_of_fisher_s_distribution():
    tables = conditional_tables(read_two_arms([7, 20], [40, 25], [15, 30], [55, 31]))
    points = np.array([[-1.0, 0.3], [0.0, 2.5]])
    excess, variance = tables.moments(points)
    for row, (a, n1, c, n2) in enumerate([(7, 40, 15, 55), (20, 25, 30, 31)]):
        for column, theta in enumerate(points[row]):
            second = stats.nchypergeom_fisher(n1 + n2, a + c, n1, math.exp(theta))
            assert excess[row, column] == pytest.approx(a - second.mean(), rel=1e-8)
            assert variance[row, column] == pytest.approx(second.var(), rel=1e-8)
            mass = tables.log_mass(points)[row, column]
            assert mass == pytest.approx(second.logpmf(a), rel=1e-8)
    assert np.all(variance <= tables.largest_variance[:, None])


@pytest.mark.parametrize("level", [0.9, 0.95])
def test_limits_and_prediction_follow_their_formulas(level):
    pooled = exact(BCG, level=level)
    t = stats.t.ppf((1 + level) / 2, 12)
    mu, se = pooled.estimate_on_scale, pooled.se_on_scale
    spread = t * math.sqrt(pooled.tau2 + se**2)
    assert pooled.estimate == pytest.approx(math.exp(mu))
    assert (pooled.low, pooled.high) == pytest.approx(
        (math.exp(mu - t * se), math.exp(mu + t * se))
    )
    assert pooled.prediction_low == pytest.approx(math.exp(mu - spread))
    assert pooled.prediction_high == pytest.approx(math.exp(mu + spread))
    assert (pooled.prediction_df, pooled.interval) == (12, "t_k_minus_1")
    assert pooled.tau2_low < pooled.tau2 < pooled.tau2_high
    # With large studies the two-step maximum likelihood answer is close by: -0.742 (0.178), 0.302.
    assert mu == pytest.approx(-0.742, abs=0.03)
    assert se == pytest.approx(0.178, abs=0.01)


def test_q_is_that_of_study_log_odds_ratios():
    pooled = exact(CATHETERS)
    common = pool_comparisons(*CATHETERS.T, contrast="odds_ratio", model="common")
    assert (pooled.q, pooled.df, pooled.p) == (common.q, common.df, common.p)
    assert pooled.corrected == common.corrected == (0, 3, 10, 11, 15)
    assert pooled.notes == ("half_added_in_q",)


def test_no_spread_is_found_where_there_is_none():
    table = np.array([(3, 30, 6, 30)] * 4)
    pooled = exact(table)
    assert pooled.tau2 == pooled.tau2_low == 0
    assert "tau2_at_zero" in pooled.notes


def test_all_studies_at_opposite_ends_have_no_maximum():
    pooled = exact(np.array([(0, 20, 5, 20), (5, 20, 0, 20)]))
    assert (pooled.status, pooled.converged) == ("not_converged", False)
    assert math.isnan(pooled.estimate)
    assert math.isfinite(pooled.q)


def test_rare_events_agree_with_sums_without_halves_and_not_with_halves():
    # True odds ratio 3, risks of 0.5% and 1.5%. Mantel-Haenszel sums without halves are close to
    # unbiased there, two-step rows with halves are pulled towards 1 (Bradburn MJ et al. Stat Med
    # 2007;26:53-77). Differences within each set, so that most of the noise cancels.
    rng = np.random.default_rng(11)
    n = np.full(12, 300)
    rows = []
    for _ in range(40):
        counts = (rng.binomial(n, 0.015 / 1.01), n, rng.binomial(n, 0.005), n)
        rows.append(
            [
                pool_comparisons(*counts, contrast="odds_ratio", model=model).estimate_on_scale
                for model in ("exact", "random", "mantel_haenszel")
            ]
        )
    by_exact, by_two_step, by_sums = np.array(rows).T
    assert np.mean(by_exact - by_sums) == pytest.approx(0, abs=0.08)
    assert np.mean(by_two_step - by_sums) < -0.12
