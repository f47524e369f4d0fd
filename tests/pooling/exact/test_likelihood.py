"""The integrated likelihood against 40-digit integration, at hard corners and easy ones."""

import mpmath as mp
import numpy as np
import pytest
from scipy import stats

from evsyn.pooling.binomial_normal.counts import read_counts
from evsyn.pooling.binomial_normal.likelihood import study_terms

# events, total, eta, tau
EASY = [
    (5, 210, -2.3, 1.2),
    (1, 40, -2.3, 0.6),
    (0, 20, -2.3, 0.6),
    (33, 33, 4.0, 0.55),
    (13, 48, -1.0, 1e-3),
    (13, 48, -1.0, 1e-8),
]
HARD = [
    (0, 100_000, -3.0, 5.0),
    (100_000, 100_000, -3.0, 5.0),
    (50_000, 100_000, -2.0, 5.0),
    (17, 100_000, -9.0, 0.01),
    (1, 1, 0.0, 5.0),
    (0, 1, -8.0, 5.0),
    (1, 1, -8.0, 0.3),
    (0, 50, 2.0, 8.0),
    (1, 1_000_000, 0.0, 3.0),
    (1_000_000, 1_000_000, 0.0, 10.0),
    (0, 1_000_000, 10.0, 0.5),
    (1, 10, -14.0, 9.3),
]
FIELDS = ("by_eta", "by_tau", "by_eta_eta", "by_eta_tau", "by_tau_tau")


def one(x, n, eta, tau, nodes):
    return study_terms(read_counts([x], [n]), np.array([eta]), tau, nodes)


@pytest.mark.parametrize(("x", "n", "eta", "tau"), EASY)
def test_32_nodes_are_enough_for_ordinary_studies(forty_digits, x, n, eta, tau):
    expected = float(forty_digits(x, n, eta, tau))
    assert one(x, n, eta, tau, 32).loglik[0] == pytest.approx(expected, abs=1e-8)


@pytest.mark.parametrize(("x", "n", "eta", "tau"), EASY + HARD)
def test_many_nodes_give_all_digits(forty_digits, x, n, eta, tau):
    expected = float(forty_digits(x, n, eta, tau))
    # Rounding in log-gamma of a million is 1e-9.
    tolerance = 2e-12 + 2e-15 * n
    assert one(x, n, eta, tau, 256).loglik[0] == pytest.approx(expected, abs=tolerance, rel=1e-13)


@pytest.mark.parametrize(("x", "n", "eta", "tau"), [EASY[0], EASY[2], EASY[4], HARD[3], HARD[7]])
def test_derivatives_are_those_of_the_40_digit_integral(forty_digits, x, n, eta, tau):
    h = mp.mpf("1e-9")
    with mp.workdps(40):
        f = {
            (i, j): forty_digits(x, n, mp.mpf(eta) + i * h, mp.mpf(tau) + j * h)
            for i in (-1, 0, 1)
            for j in (-1, 0, 1)
        }
        expected = {
            "by_eta": (f[1, 0] - f[-1, 0]) / (2 * h),
            "by_tau": (f[0, 1] - f[0, -1]) / (2 * h),
            "by_eta_eta": (f[1, 0] - 2 * f[0, 0] + f[-1, 0]) / h**2,
            "by_eta_tau": (f[1, 1] - f[1, -1] - f[-1, 1] + f[-1, -1]) / (4 * h**2),
            "by_tau_tau": (f[0, 1] - 2 * f[0, 0] + f[0, -1]) / h**2,
        }
    terms = one(x, n, eta, tau, 256)
    for name in FIELDS:
        assert getattr(terms, name)[0] == pytest.approx(
            float(expected[name]), rel=1e-7, abs=1e-9
        ), name


def test_without_spread_it_is_the_binomial():
    x, n, eta = [0, 3, 20], [20, 45, 20], np.array([-2.0, -2.5, 3.0])
    terms = study_terms(read_counts(x, n), eta, 0.0, 32)
    assert terms.loglik == pytest.approx(
        stats.binom.logpmf(x, n, 1 / (1 + np.exp(-eta))), abs=1e-11
    )
    assert terms.by_tau == pytest.approx(0, abs=1e-11)


@pytest.mark.parametrize(("n", "eta", "tau"), [(7, -2.0, 1.5), (30, 0.5, 4.0), (1, -1.0, 0.2)])
def test_chances_of_all_counts_sum_to_one(n, eta, tau):
    counts = read_counts(np.arange(n + 1), np.full(n + 1, n))
    terms = study_terms(counts, np.full(n + 1, eta), tau, 128)
    assert np.exp(terms.loglik).sum() == pytest.approx(1, abs=1e-11)
