"""Likelihood of the binomial-normal model, by numerical integration fitted to each study.

A study with linear predictor eta and standard normal z has events distributed as
Bin(n, expit(eta + tau z)); its likelihood is the integral over z. The integrand is log-concave.
Any other distribution of counts that is so in its log-odds can stand in for the binomial.
Nodes are spread evenly over the stretch where it is not negligible, study by study. For smooth
integrands that vanish at both ends the error of that rule falls exponentially with the number of
nodes (Trefethen and Weideman, SIAM Review 2014;56:385-458, from memory), also where one side is
far steeper than the other, as with no event in a large study.
"""

from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from evsyn.effects.arguments import Floats

# The integrand is left out where it is below exp(-38) = 3e-17 of its top.
_DEPTH = 38.0


class CountLikelihood(Protocol):
    """Counts of k studies, each with a likelihood in one log-odds (or log odds ratio) of its own.

    As a function of that number it is an exponential family: the slope of its logarithm is the
    count less its expectation, the curvature minus its variance.
    """

    @property
    def k(self) -> int:
        """Number of studies."""

    @property
    def log_coefficient(self) -> Floats:
        """What to add to ``log_mass``, shape ``(k,)``."""

    @property
    def crude(self) -> float:
        """One value for all studies, near enough to start from."""

    @property
    def largest_variance(self) -> Floats:
        """A bound of the variance of each count, shape ``(k,)``."""

    @property
    def observed(self) -> tuple[Floats, Floats]:
        """Each study's own value and its variance, near enough to start from."""

    def log_mass(self, log_odds: Floats) -> Floats:
        """Return log likelihoods at each of some points, shape ``(k, points)``."""

    def moments(self, log_odds: Floats) -> tuple[Floats, Floats]:
        """Return counts less expectations, and variances, shape ``(k, points)``."""


@dataclass(frozen=True, slots=True)
class StudyTerms:
    """Each study's log-likelihood and its derivatives in eta and tau, every one of shape (k,)."""

    loglik: Floats
    by_eta: Floats
    by_tau: Floats
    by_eta_eta: Floats
    by_eta_tau: Floats
    by_tau_tau: Floats


def study_terms(counts: CountLikelihood, eta: Floats, tau: float, nodes: int) -> StudyTerms:
    """Return log-likelihood, first and second derivatives of every study.

    The derivatives are moments of the derivatives of the binomial part over the distribution of
    z given the data (Louis, JRSS B 1982;44:226-233, from memory), so one pass over the nodes
    gives all six.

    Parameters
    ----------
    counts : Counts or another CountLikelihood
        Counts of k studies.
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
    log_density = counts.log_mass(log_odds) - z**2 / 2
    top = log_density.max(axis=1)
    density = np.exp(log_density - top[:, None])
    mass = density.sum(axis=1)
    weight = density / mass[:, None]

    slope, variance = counts.moments(log_odds)
    bend = slope**2 - variance
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


def _stretch(counts: CountLikelihood, eta: Floats, tau: float) -> tuple[Floats, Floats]:
    """Return where each study's integrand rises above and falls below the depth left out.

    Its second derivative lies between -1 - tau^2 (largest variance of the count) and -1, which
    bounds both distances from the mode; the bracket is halved on a log scale, and the outer end is
    taken.
    """
    mode = _modes(counts, eta, tau)[:, None]

    def log_density(z: Floats) -> Floats:
        density: Floats = counts.log_mass(eta[:, None] + tau * z) - z**2 / 2
        return density

    floor = log_density(mode) - _DEPTH
    furthest = np.full((counts.k, 2), np.sqrt(2 * _DEPTH))
    nearest = furthest / np.sqrt(1 + tau**2 * counts.largest_variance)[:, None]
    side = np.array([-1.0, 1.0])
    while np.any(furthest > 1.25 * nearest):
        middle = np.sqrt(furthest * nearest)
        beyond: NDArray[np.bool_] = log_density(mode + side * middle) < floor
        furthest = np.where(beyond, middle, furthest)
        nearest = np.where(beyond, nearest, middle)
    ends = mode + side * furthest
    return ends[:, 0], ends[:, 1]


def _modes(counts: CountLikelihood, eta: Floats, tau: float) -> Floats:
    """Return the mode, in z, of each study's integrand, shape (k,).

    The slope has one zero; it lies between 0 and the slope of the binomial part at 0. Newton
    steps that leave the bracket are replaced by its middle.
    """
    reach = tau * counts.moments(eta[:, None])[0][:, 0]
    low, high = np.minimum(0, reach), np.maximum(0, reach)
    observed, noise = counts.observed
    z = np.clip(tau * (observed - eta) / (tau**2 + noise), low, high)
    for _ in range(100):
        excess, variance = counts.moments((eta + tau * z)[:, None])
        slope = tau * excess[:, 0] - z
        bend = 1 + tau**2 * variance[:, 0]
        low, high = np.where(slope > 0, z, low), np.where(slope > 0, high, z)
        step = slope / bend
        inside = (z + step >= low) & (z + step <= high)
        z = np.where(inside, z + step, (low + high) / 2)
        # The mode only anchors the stretch: a tenth of the local scale is near enough.
        if np.all(inside & (np.abs(step) * np.sqrt(bend) < 0.1)):
            break
    return z
