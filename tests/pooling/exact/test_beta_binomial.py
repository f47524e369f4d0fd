"""The beta-binomial model against scipy's distribution and values computed apart."""

import math

import mpmath as mp
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import optimize, special, stats

from evsyn.pooling.beta_binomial import fit_beta_binomial, pool_beta_binomial
from evsyn.pooling.beta_binomial_likelihood import log_likelihood, reaches
from evsyn.pooling.binomial_normal.counts import read_counts
from evsyn.pooling.result import Status

STENT_OVER = ([2, 0, 5, 1, 13, 19], [42, 17, 32, 55, 48, 56])
RARE = ([0, 1, 0, 3, 2, 0, 5], [20, 45, 33, 120, 60, 15, 210])
HIGH = ([20, 44, 33, 115, 60], [20, 45, 33, 120, 60])
MILLION = ([3, 1], [10, 1_000_000])


def by_scipy(counts, mean, rho):
    size = (1 - rho) / rho
    return stats.betabinom.logpmf(*map(np.array, counts), mean * size, (1 - mean) * size).sum()


def test_fit_computed_apart(printed):
    # No printed source: fitted apart from this code with log-gamma functions.
    fit = fit_beta_binomial(*HIGH)
    assert fit.mean == printed("0.98186")
    assert fit.rho == printed("0.00917")
    assert fit.loglik == printed("-5.89297")


def test_without_spread_it_is_the_crude_total():
    fit = fit_beta_binomial(*RARE)
    assert fit.converged
    assert fit.rho == 0
    assert fit.mean == pytest.approx(11 / 503, rel=1e-12)
    assert fit.loglik == pytest.approx(stats.binom.logpmf(*RARE, 11 / 503).sum(), abs=1e-11)
    assert fit.se_logit == pytest.approx(1 / np.sqrt(503 * (11 / 503) * (492 / 503)), rel=1e-12)
    # And zero is the maximum: every spread that scipy can still resolve does worse.
    for rho in (1e-4, 1e-3, 1e-2, 0.1):
        assert by_scipy(RARE, fit.mean, rho) < fit.loglik


@pytest.mark.parametrize("counts", [STENT_OVER, HIGH])
def test_second_optimiser_and_standard_error(counts):
    fit = fit_beta_binomial(*counts)

    def loss(point):
        return -by_scipy(counts, special.expit(point[0]), special.expit(point[1]))

    start = [special.logit(fit.mean) + 0.2, special.logit(fit.rho) - 0.3]
    found = optimize.minimize(
        loss, start, method="Nelder-Mead", options={"xatol": 1e-8, "fatol": 1e-12}
    )
    assert special.expit(found.x) == pytest.approx([fit.mean, fit.rho], rel=1e-4)
    assert -found.fun == pytest.approx(fit.loglik, abs=1e-9)
    h, at = 1e-3, np.array(found.x)
    steps = np.eye(2) * h
    hessian = [
        [(loss(at + a + b) - loss(at + a - b) - loss(at - a + b) + loss(at - a - b)) for b in steps]
        for a in steps
    ]
    variance = np.linalg.inv(np.array(hessian) / (4 * h**2))[0, 0]
    assert fit.se_logit == pytest.approx(np.sqrt(variance), rel=1e-4)


@pytest.mark.parametrize(
    ("counts", "spread"),
    [
        (([43, 4, 0, 2], [303, 4, 12, 4]), True),
        (([75, 0], [97, 4]), True),
        (([64, 12, 1, 2], [73, 13, 2, 5]), True),
        (([0, 1, 2, 0, 0, 0], [10, 3, 238, 25, 83, 174]), False),
        (([86, 0, 0], [299, 8, 2]), False),
    ],
)
def test_higher_of_two_hills(counts, spread):
    # Found by search: the profile likelihood of rho has one hill at 0 and one above.
    crude = sum(counts[0]) / sum(counts[1])

    def height(rho):
        return -optimize.minimize_scalar(
            lambda m: -by_scipy(counts, m, rho), bounds=(1e-4, 1 - 1e-4), method="bounded"
        ).fun

    flat = stats.binom.logpmf(*counts, crude).sum()
    heights = np.array([height(rho) for rho in np.linspace(0.005, 0.9, 120)])
    inner = heights[1:-1]
    assert height(1e-5) < flat
    assert ((inner > heights[:-2]) & (inner > heights[2:])).sum() == 1
    fit = fit_beta_binomial(*counts)
    assert (fit.rho > 0) is spread
    assert fit.loglik == pytest.approx(max(flat, heights.max()), abs=1e-3)
    assert fit.loglik >= max(flat, heights.max()) - 1e-9


@pytest.mark.parametrize("rho", [0.3, 0.01, 1e-5, 1e-9, 1e-13])
@pytest.mark.parametrize("counts", [RARE, MILLION])
def test_likelihood_keeps_its_digits_as_spread_vanishes(counts, rho):
    mean = 0.02
    with mp.workdps(60):
        m, r = mp.mpf(mean), mp.mpf(rho)
        a, b = m * (1 - r) / r, (1 - m) * (1 - r) / r
        expected = sum(
            mp.log(mp.binomial(n, x)) + mp.log(mp.beta(x + a, n - x + b)) - mp.log(mp.beta(a, b))
            for x, n in zip(*counts, strict=True)
        )
    value, _, _ = log_likelihood(
        reaches(read_counts(*counts)), float(special.logit(mean)), rho / (1 - rho)
    )
    assert value == pytest.approx(float(expected), rel=1e-9, abs=1e-9)


@pytest.mark.parametrize("phi", [0.2, 1e-4])
def test_derivatives(phi):
    counts, h, at = reaches(read_counts(*STENT_OVER)), 1e-6, np.array([-1.7, phi])
    _, gradient, hessian = log_likelihood(counts, *at)
    for i, step in enumerate(np.diag([h, h * phi])):
        up, down = log_likelihood(counts, *(at + step)), log_likelihood(counts, *(at - step))
        assert gradient[i] == pytest.approx((up[0] - down[0]) / (2 * step[i]), rel=1e-5)
        assert hessian[i] == pytest.approx((up[1] - down[1]) / (2 * step[i]), rel=1e-5)


def test_record():
    fit, pooled = fit_beta_binomial(*STENT_OVER), pool_beta_binomial(*STENT_OVER, level=0.9)
    assert pooled.status is Status.POOLED
    assert (pooled.model, pooled.scale) == ("beta_binomial", "mean")
    assert pooled.estimate == fit.mean
    half = stats.t.ppf(0.95, 5) * fit.se_logit
    assert pooled.low == pytest.approx(special.expit(special.logit(fit.mean) - half))
    assert pooled.high == pytest.approx(special.expit(special.logit(fit.mean) + half))
    size = (1 - fit.rho) / fit.rho
    beta = stats.beta(fit.mean * size, (1 - fit.mean) * size)
    assert pooled.prediction_low == pytest.approx(beta.ppf(0.05), rel=1e-8)
    assert pooled.prediction_high == pytest.approx(beta.ppf(0.95), rel=1e-8)
    assert math.isnan(pooled.tau2)
    assert math.isnan(pooled.q)


def test_statuses():
    assert pool_beta_binomial([], []).status is Status.NO_STUDY
    one = pool_beta_binomial([3], [40])
    assert (one.status, one.model, one.scale) == (Status.ONE_STUDY, "beta_binomial", "mean")
    assert one.high == pytest.approx(stats.beta.ppf(0.975, 4, 37))
    assert pool_beta_binomial([0, 0], [5, 6]).status is Status.ALL_ZERO
    assert pool_beta_binomial([5, 6], [5, 6]).status is Status.ALL_FULL
    endless = pool_beta_binomial([0, 5], [5, 5])
    assert endless.status is Status.NOT_CONVERGED
    assert math.isnan(endless.estimate)
    flat = pool_beta_binomial(*RARE)
    assert flat.notes == ("rho_at_zero",)
    assert math.isnan(flat.prediction_low)


SERIES = st.lists(
    st.integers(1, 300).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))),
    min_size=2,
    max_size=9,
).filter(lambda rows: 0 < sum(x for x, _ in rows) < sum(n for _, n in rows))


@given(SERIES, st.randoms(use_true_random=False))
@settings(max_examples=50, deadline=None)
def test_order_complement_and_height(rows, random):
    events, total = np.array(rows).T
    fit = fit_beta_binomial(events, total)
    if not fit.converged:
        assert fit.rho > 0.99  # only studies all at 0% or 100% may fail to settle
        return
    again = fit_beta_binomial(*np.array(random.sample(rows, len(rows))).T)
    mirror = fit_beta_binomial(total - events, total)
    assert again.mean == pytest.approx(fit.mean, abs=1e-6)
    assert 1 - mirror.mean == pytest.approx(fit.mean, abs=1e-6)
    assert mirror.rho == pytest.approx(fit.rho, abs=1e-6)
    for rho in (0.001, 0.01, 0.05, 0.2, 0.5, 0.8):
        assert by_scipy((events, total), fit.mean, rho) <= fit.loglik + 1e-7


@pytest.mark.parametrize(
    ("events", "total", "said"),
    [
        ([1], [5], "at least 2"),
        ([0, 0], [5, 6], "cannot be fitted"),
        ([6, 1], [5, 6], "exceed"),
        ([6, 1], [20_000_000, 6], "10,000,000"),
    ],
)
def test_refusals(events, total, said):
    with pytest.raises(ValueError, match=said):
        fit_beta_binomial(events, total)
