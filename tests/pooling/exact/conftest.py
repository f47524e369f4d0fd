"""The likelihood by a second route: 40-digit integration, and a fixed fine grid with scipy."""

import mpmath as mp
import numpy as np
import pytest
from scipy import integrate, special, stats

GRID = np.linspace(-9, 9, 3001)


def _pieces(x, n, eta, tau):
    """Cut the line at distances that grow by two from the top of the integrand."""
    low, high = mp.mpf(-60), mp.mpf(60)
    for _ in range(200):
        z = (low + high) / 2
        slope = tau * (x - n / (1 + mp.exp(-(eta + tau * z)))) - z
        low, high = (z, high) if slope > 0 else (low, z)
    p = 1 / (1 + mp.exp(-(eta + tau * z)))
    scale = 1 / mp.sqrt(1 + tau**2 * n * p * (1 - p))
    steps = [scale * mp.mpf(2) ** j for j in range(-1, 30) if scale * mp.mpf(2) ** j < 40]
    return [z - s for s in reversed(steps)] + [z] + [z + s for s in steps]


def log_likelihood_40_digits(x, n, eta, tau):
    """log integral Bin(x; n, expit(eta + tau z)) phi(z) dz with 40 digits."""
    with mp.workdps(40):
        x, n, eta, tau = mp.mpf(int(x)), mp.mpf(int(n)), mp.mpf(eta), mp.mpf(tau)

        def density(z):
            t = eta + tau * z
            return mp.exp(
                -x * mp.log1p(mp.exp(-t)) - (n - x) * mp.log1p(mp.exp(t)) - z * z / 2 + shift
            )

        pieces = _pieces(x, n, eta, tau)
        top = pieces[len(pieces) // 2]
        t = eta + tau * top
        shift = x * mp.log1p(mp.exp(-t)) + (n - x) * mp.log1p(mp.exp(t)) + top * top / 2
        area = mp.quad(density, pieces) / mp.sqrt(2 * mp.pi)
        choose = mp.loggamma(n + 1) - mp.loggamma(x + 1) - mp.loggamma(n - x + 1)
        return mp.log(area) - shift + choose


def log_likelihood_scipy(events, total, eta, tau):
    """The same summed over studies, by Simpson's rule on one fixed fine grid."""
    x, n = np.array(events)[:, None], np.array(total)[:, None]
    log_odds = np.broadcast_to(eta, len(events))[:, None] + tau * GRID
    # binom.pmf is slow on tables of this size; its parts are not.
    choose = special.gammaln(n + 1) - special.gammaln(x + 1) - special.gammaln(n - x + 1)
    log_pmf = choose + x * special.log_expit(log_odds) + (n - x) * special.log_expit(-log_odds)
    log_density = log_pmf + stats.norm.logpdf(GRID)
    top = log_density.max(axis=1, keepdims=True)
    area = integrate.simpson(np.exp(log_density - top), x=GRID, axis=1)
    return float((np.log(area) + top[:, 0]).sum())


@pytest.fixture(scope="session")
def forty_digits():
    return log_likelihood_40_digits


@pytest.fixture(scope="session")
def by_scipy():
    return log_likelihood_scipy
