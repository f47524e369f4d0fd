"""The maximum against values computed apart, published fits, and other optimisers."""

import mpmath as mp
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import integrate, optimize, special, stats

from evsyn.pooling.binomial_normal import (
    fit_binomial_normal,
    fit_binomial_normal_at,
    population_mean,
)

STENT_OVER = ([2, 0, 5, 1, 13, 19], [42, 17, 32, 55, 48, 56])
RARE = ([0, 1, 0, 3, 2, 0, 5], [20, 45, 33, 120, 60, 15, 210])
HIGH = ([20, 44, 33, 115, 60], [20, 45, 33, 120, 60])
ACTIVE = ([411, 998, 510, 121], [428, 1041, 544, 160])

# No printed source: 61-point adaptive Gauss-Hermite fits made apart from this code, their
# log-likelihood and stationarity confirmed by 25-digit integration.
COMPUTED_APART = [
    (STENT_OVER, "-2.26882", "1.55773", "0.09374", "0.14272", "-16.77647"),
    (RARE, "-3.80058", "0.00000", "0.02187", "0.02187", "-7.19746"),
    (HIGH, "4.08735", "0.30460", "0.98349", "0.98096", "-5.96187"),
]


@pytest.mark.parametrize(("counts", "mu", "tau2", "median", "mean", "loglik"), COMPUTED_APART)
def test_fits_computed_apart(printed, counts, mu, tau2, median, mean, loglik):
    fit = fit_binomial_normal(*counts)
    assert fit.converged
    assert fit.mu == printed(mu)
    assert fit.tau**2 == printed(tau2)
    assert special.expit(fit.mu) == printed(median)
    assert fit.mean == printed(mean)
    assert fit.loglik == printed(loglik)


@pytest.mark.parametrize("counts", [HIGH, ACTIVE])
def test_stationary_by_40_digits(forty_digits, counts):
    fit = fit_binomial_normal(*counts)
    h = mp.mpf("1e-8")

    def total(mu, tau):
        return sum(forty_digits(x, n, mu, tau) for x, n in zip(*counts, strict=True))

    with mp.workdps(40):
        mu, tau = mp.mpf(fit.mu), mp.mpf(fit.tau)
        by_mu = (total(mu + h, tau) - total(mu - h, tau)) / (2 * h)
        by_tau = (total(mu, tau + h) - total(mu, tau - h)) / (2 * h)
        here = total(mu, tau)
    assert fit.loglik == pytest.approx(float(here), abs=1e-9)
    assert float(by_mu) == pytest.approx(0, abs=1e-7)
    assert float(by_tau) == pytest.approx(0, abs=1e-7)


@pytest.mark.parametrize("counts", [STENT_OVER, HIGH])
def test_second_optimiser_finds_the_same_maximum_and_standard_error(by_scipy, counts):
    fit = fit_binomial_normal(*counts)

    def loss(point):
        return -by_scipy(*counts, point[0], abs(point[1]))

    found = optimize.minimize(
        loss, [fit.mu + 0.3, fit.tau + 0.2], method="Nelder-Mead", options={"xatol": 1e-6}
    )
    assert found.x == pytest.approx([fit.mu, fit.tau], abs=2e-5)
    assert -found.fun == pytest.approx(fit.loglik, abs=1e-8)
    h = 1e-3
    steps = np.eye(2) * h
    centre = np.array([fit.mu, fit.tau])
    hessian = [
        [
            (
                loss(centre + a + b)
                - loss(centre + a - b)
                - loss(centre - a + b)
                + loss(centre - a - b)
            )
            / (4 * h**2)
            for b in steps
        ]
        for a in steps
    ]
    assert fit.se == pytest.approx(np.sqrt(np.linalg.inv(hessian)[0, 0]), rel=1e-4)


def test_standard_error_without_spread_is_that_of_the_crude_total():
    fit = fit_binomial_normal(*RARE)
    assert fit.tau == 0
    # Binomial information of the log-odds: n p (1 - p) of the total 11 of 503.
    assert fit.se == pytest.approx(1 / np.sqrt(503 * (11 / 503) * (492 / 503)), rel=1e-9)
    assert fit.mu == pytest.approx(np.log(11 / 492), rel=1e-10)
    assert fit.loglik == pytest.approx(stats.binom.logpmf(*RARE, 11 / 503).sum(), abs=1e-10)


def test_spread_held(by_scipy):
    held = fit_binomial_normal_at(*STENT_OVER, 0.5)
    found = optimize.minimize_scalar(
        lambda mu: -by_scipy(*STENT_OVER, mu, 0.5), bracket=(-3, -1), options={"xtol": 1e-9}
    )
    assert held.tau == 0.5
    assert held.mu == pytest.approx(found.x, abs=1e-6)
    assert held.loglik == pytest.approx(-found.fun, abs=1e-9)
    h = 1e-3
    bend = sum(
        s * by_scipy(*STENT_OVER, held.mu + d * h, 0.5) for d, s in ((-1, 1), (0, -2), (1, 1))
    )
    assert held.se == pytest.approx(np.sqrt(-(h**2) / bend), rel=1e-4)
    free = fit_binomial_normal(*STENT_OVER)
    assert fit_binomial_normal_at(*STENT_OVER, free.tau).mu == pytest.approx(free.mu, abs=1e-7)


@pytest.mark.parametrize(("mu", "tau"), [(-2.3, 0.6), (4.1, 0.0), (-1.0, 5.0), (-14.0, 30.0)])
def test_population_mean_by_scipy_quadrature(mu, tau):
    expected, _ = integrate.quad(
        lambda z: special.expit(mu + tau * z) * stats.norm.pdf(z), -10, 10, epsabs=1e-13, limit=500
    )
    assert population_mean(mu, tau) == pytest.approx(expected, abs=1e-12)


SERIES = st.lists(
    st.integers(1, 300).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))),
    min_size=2,
    max_size=9,
).filter(lambda rows: 0 < sum(x for x, _ in rows) < sum(n for _, n in rows))


@given(SERIES, st.randoms(use_true_random=False))
@settings(max_examples=40, deadline=None)
def test_order_complement_and_height(rows, random):
    events, total = np.array(rows).T
    fit = fit_binomial_normal(events, total)
    if not fit.converged:
        assert fit.tau > 5  # only spread without limit may fail to settle
        return
    shuffled = random.sample(rows, len(rows))
    again = fit_binomial_normal(*np.array(shuffled).T)
    mirror = fit_binomial_normal(total - events, total)
    for other, sign in ((again, 1), (mirror, -1)):
        assert other.loglik == pytest.approx(fit.loglik, abs=1e-7)
        assert sign * other.mu == pytest.approx(fit.mu, abs=1e-4, rel=1e-5)
        assert other.tau == pytest.approx(fit.tau, abs=1e-4, rel=1e-4)
        assert other.se == pytest.approx(fit.se, rel=1e-3)
    # No held spread does better: the maximum is the global one.
    for tau in (0, 0.03, 0.1, 0.25, 0.5, 0.8, 1.3, 2, 3, 5, 8):
        assert fit_binomial_normal_at(events, total, tau).loglik <= fit.loglik + 1e-7


@pytest.mark.parametrize(
    ("counts", "spread"),
    [
        (([4, 41], [4, 221]), True),
        (([100, 7], [255, 8]), True),
        (([140, 8, 0], [206, 8, 2]), False),
        (([3, 21], [6, 187]), False),
    ],
)
def test_higher_of_two_hills(by_scipy, counts, spread):
    # Found by search: the profile likelihood of tau has one hill at 0 and one above.
    def height(tau):
        return -optimize.minimize_scalar(
            lambda mu: -by_scipy(*counts, mu, tau), bracket=(-2, 1), options={"xtol": 1e-6}
        ).fun

    heights = np.array([height(tau) for tau in (0, 0.05, 0.1, 0.2, 0.4, 0.7, 1, 1.5, 2, 2.7, 4)])
    inner = heights[1:-1]
    assert heights[1] < heights[0]
    assert ((inner > heights[:-2]) & (inner > heights[2:])).sum() == 1
    fit = fit_binomial_normal(*counts)
    assert (fit.tau > 0) is spread
    assert fit.loglik >= heights.max() - 1e-9


def test_spread_far_below_the_first_step_of_the_search(by_scipy):
    # Binomial SD of the log-odds is 0.0105 here; the spread added to it is smaller still.
    counts = ([10_130, 9_870, 10_150, 9_850, 10_000, 10_140], [100_000] * 6)
    fit = fit_binomial_normal(*counts)
    held = [fit_binomial_normal_at(*counts, tau).loglik for tau in (0, 0.5 * fit.tau, 2 * fit.tau)]
    assert 0 < fit.tau < 0.02
    assert fit.loglik > max(held) + 1e-3
    x, n = np.array(counts, dtype=float)
    y, v = np.log(x / (n - x)), 1 / x + 1 / (n - x)
    # With counts this large the model is the normal one: tau2 = mean square less sampling part.
    assert fit.tau**2 == pytest.approx(((y - y.mean()) ** 2).mean() - v.mean(), rel=0.02)


def test_equal_studies_have_no_spread():
    fit = fit_binomial_normal([5] * 12, [50] * 12)
    assert fit.tau == 0
    assert special.expit(fit.mu) == pytest.approx(0.1)


def test_a_million_beside_a_dozen(forty_digits):
    counts = ([3, 2, 900], [10, 10, 1_000_000])
    fit = fit_binomial_normal(*counts)
    assert fit.converged

    def total(mu, tau):
        return float(sum(forty_digits(x, n, mu, tau) for x, n in zip(*counts, strict=True)))

    assert fit.loglik == pytest.approx(total(fit.mu, fit.tau), abs=1e-8)
    for mu, tau in ((0.01, 0), (-0.01, 0), (0, 0.01), (0, -0.01)):
        assert total(fit.mu + mu, fit.tau + tau) < fit.loglik - 1e-7


def test_nodes_grow_until_the_answer_is_stable(forty_digits):
    # One integrand has a plateau, a cliff and a long tail: 64 nodes are not enough for it.
    counts = ([0, 0, 0, 1], [1_000_000, 10, 10, 10])
    fit = fit_binomial_normal(*counts)
    assert fit.converged
    assert fit.nodes > 64
    by_integral = sum(forty_digits(x, n, fit.mu, fit.tau) for x, n in zip(*counts, strict=True))
    assert fit.loglik == pytest.approx(float(by_integral), abs=1e-7)


def test_ten_thousand_studies():
    rng = np.random.default_rng(20)
    total = rng.integers(8, 250, 10_000)
    events = rng.binomial(total, special.expit(-2.5 + 0.6 * rng.standard_normal(10_000)))
    fit = fit_binomial_normal(events, total)
    assert fit.converged
    # The truth of this simulation, made for this test, within four standard errors.
    assert abs(fit.mu + 2.5) < 4 * fit.se
    assert fit.tau == pytest.approx(0.6, abs=0.03)


@pytest.mark.parametrize(
    "counts",
    [([0, 5], [5, 5]), ([0, 10, 0], [20, 10, 9]), ([0, 1_000_000], [1_000_000, 1_000_000])],
)
def test_spread_without_limit_is_told(counts):
    fit = fit_binomial_normal(*counts)
    assert not fit.converged
    assert np.isnan(fit.se)


@pytest.mark.parametrize(
    ("events", "total", "said"),
    [
        ([1], [5], "at least 2 studies"),
        ([0, 0], [5, 6], "cannot be fitted"),
        ([5, 6], [5, 6], "cannot be fitted"),
        ([6, 1], [5, 6], "exceed"),
        ([1.5, 1], [5, 6], "whole"),
    ],
)
def test_refusals(events, total, said):
    with pytest.raises(ValueError, match=said):
        fit_binomial_normal(events, total)


@pytest.mark.parametrize("tau", [-0.1, 41, np.nan])
def test_held_spread_out_of_range_is_refused(tau):
    with pytest.raises(ValueError, match="between 0 and 40"):
        fit_binomial_normal_at([1, 2], [5, 6], tau)
