"""Likelihood of the binomial-normal model, by numerical integration fitted to each study.

A study with linear predictor eta and standard normal z has events distributed as
Bin(n, expit(eta + tau z)); its likelihood is the integral over z. The integrand is log-concave.
Nodes are spread evenly over the stretch where it is not negligible, study by study. For smooth
integrands that vanish at both ends the error of that rule falls exponentially with the number of
nodes (Trefethen and Weideman, SIAM Review 2014;56:385-458, from memory), also where one side is
far steeper than the other, as with no event in a large study.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import expit

from evsyn.effects.arguments import Floats
from evsyn.pooling.binomial_normal.counts import Counts

# The integrand is left out where it is below exp(-38) = 3e-17 of its top.
_DEPTH = 38.0


@dataclass(frozen=True, slots=True)
class StudyTerms:
    """Each study's log-likelihood and its derivatives in eta and tau, every one of shape (k,)."""

    loglik: Floats
    by_eta: Floats
    by_tau: Floats
    by_eta_eta: Floats
    by_eta_tau: Floats
    by_tau_tau: Floats


def study_terms(counts: Counts, eta: Floats, tau: float, nodes: int) -> StudyTerms:
    """Return log-likelihood, first and second derivatives of every study.

    The derivatives are moments of the derivatives of the binomial part over the distribution of
    z given the data (Louis, JRSS B 1982;44:226-233, from memory), so one pass over the nodes
    gives all six.

    Parameters
    ----------
    counts : Counts
        Events and totals of k studies.
    eta : ndarray, shape (k,)
        Linear predictor, log-odds.
    tau : float
        Between-study standard deviation, log-odds, at least 0.
    nodes : int
        Number of nodes.

    Returns
    -------
    StudyTerms
        The log-likelihood includes the binomial coefficient.
    """
    low, high = _stretch(counts, eta, tau)
    step = (high - low) / (nodes - 1)
    z = low[:, None] + step[:, None] * np.arange(nodes)
    log_odds = eta[:, None] + tau * z
    x, n = counts.events[:, None], counts.total[:, None]
    log_density = _log_density(x, n, log_odds, z)
    top = log_density.max(axis=1)
    density = np.exp(log_density - top[:, None])
    mass = density.sum(axis=1)
    weight = density / mass[:, None]

    chance = expit(log_odds)
    slope = x - n * chance
    bend = slope**2 - n * chance * expit(-log_odds)
    by_eta = (weight * slope).sum(axis=1)
    by_tau = (weight * slope * z).sum(axis=1)
    return StudyTerms(
        loglik=counts.log_coefficient + top + np.log(mass * step) - np.log(2 * np.pi) / 2,
        by_eta=by_eta,
        by_tau=by_tau,
        by_eta_eta=(weight * bend).sum(axis=1) - by_eta**2,
        by_eta_tau=(weight * bend * z).sum(axis=1) - by_eta * by_tau,
        by_tau_tau=(weight * bend * z**2).sum(axis=1) - by_tau**2,
    )


def _log_density(x: Floats, n: Floats, log_odds: Floats, z: Floats) -> Floats:
    # Two terms of one sign, so nothing cancels however large the total.
    density: Floats = (
        -x * np.logaddexp(0, -log_odds) - (n - x) * np.logaddexp(0, log_odds) - z**2 / 2
    )
    return density


def _stretch(counts: Counts, eta: Floats, tau: float) -> tuple[Floats, Floats]:
    """Return where each study's integrand rises above and falls below the depth left out.

    Its second derivative lies between -1 - tau^2 n / 4 and -1, which bounds both distances from
    the mode; the bracket is halved on a log scale, and the outer end is taken.
    """
    x, n = counts.events, counts.total
    mode = _modes(counts, eta, tau)
    floor = _log_density(x, n, eta + tau * mode, mode) - _DEPTH
    furthest = np.full((2, counts.k), np.sqrt(2 * _DEPTH))
    nearest = furthest / np.sqrt(1 + tau**2 * n / 4)
    side = np.array([[-1.0], [1.0]])
    while np.any(furthest > 1.25 * nearest):
        middle = np.sqrt(furthest * nearest)
        z = mode + side * middle
        beyond: NDArray[np.bool_] = _log_density(x, n, eta + tau * z, z) < floor
        furthest = np.where(beyond, middle, furthest)
        nearest = np.where(beyond, nearest, middle)
    return mode - furthest[0], mode + furthest[1]


def _modes(counts: Counts, eta: Floats, tau: float) -> Floats:
    """Return the mode, in z, of each study's integrand, shape (k,).

    The slope has one zero; it lies between 0 and the slope of the binomial part at 0. Newton
    steps that leave the bracket are replaced by its middle.
    """
    x, n = counts.events, counts.total
    reach = tau * (x - n * expit(eta))
    low, high = np.minimum(0, reach), np.maximum(0, reach)
    observed = np.log((x + 0.5) / (n - x + 0.5))
    noise = 1 / (x + 0.5) + 1 / (n - x + 0.5)
    z = np.clip(tau * (observed - eta) / (tau**2 + noise), low, high)
    for _ in range(100):
        chance = expit(eta + tau * z)
        slope = tau * (x - n * chance) - z
        bend = 1 + tau**2 * n * chance * (1 - chance)
        low, high = np.where(slope > 0, z, low), np.where(slope > 0, high, z)
        step = slope / bend
        inside = (z + step >= low) & (z + step <= high)
        z = np.where(inside, z + step, (low + high) / 2)
        # The mode only anchors the stretch: a tenth of the local scale is near enough.
        if np.all(inside & (np.abs(step) * np.sqrt(bend) < 0.1)):
            break
    return z
