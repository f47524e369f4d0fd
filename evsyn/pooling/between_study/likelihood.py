"""Likelihoods of the between-study variance, and their global maximum.

Both likelihoods may have two maxima. All places where the slope turns from rising to falling are
found on a grid even in the logarithm of the variance, each is refined, and the highest is kept.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from evsyn.effects.arguments import Floats
from evsyn.effects.bisection import bisect_decreasing
from evsyn.pooling.between_study.result import BetweenStudy
from evsyn.pooling.between_study.unweighted import sum_of_squares
from evsyn.pooling.studies import StudyRows, weight_spread, weighted_mean

#: Step of the grid in the natural logarithm. The likelihood is a sum of terms in
#: ``log(variance + tau2)``, none of which can turn within less than about one such unit.
_LOG_STEP = 0.25


@dataclass(frozen=True, slots=True)
class Likelihood:
    """One kind of likelihood, by the two terms in which the kinds differ.

    Parameters
    ----------
    penalty : callable
        Weights to the term added to ``sum(log(v + tau2)) + Q``.
    pull : callable
        Weights to what is taken from ``sum((w * residual) ** 2)`` in twice the slope.
    """

    penalty: Callable[[Floats], Floats]
    pull: Callable[[Floats], Floats]

    def log_value(self, studies: StudyRows, tau2: Floats) -> Floats:
        """Return the log-likelihood, the mean profiled out, up to a constant."""
        at = weighted_mean(studies, tau2)
        spread = np.log(studies.variance + tau2[:, np.newaxis])
        logs = (studies.present * spread).sum(axis=1)
        return np.asarray(-0.5 * (logs + self.penalty(at.weights) + at.q), dtype=np.float64)

    def slope(self, studies: StudyRows, tau2: Floats) -> Floats:
        """Return the derivative of the log-likelihood in ``tau2``."""
        at = weighted_mean(studies, tau2)
        push = ((at.weights * at.residual) ** 2).sum(axis=1)
        return np.asarray(0.5 * (push - self.pull(at.weights)), dtype=np.float64)


RESTRICTED = Likelihood(lambda weights: np.log(weights.sum(axis=1)), weight_spread)
MAXIMUM_LIKELIHOOD = Likelihood(
    lambda weights: np.zeros(weights.shape[0]), lambda weights: weights.sum(axis=1)
)


def search_grid(studies: StudyRows) -> Floats:
    """Return trial variances, shape ``(analyses, points)``, rising from 0.

    The last point lies above every maximum of either likelihood: past the largest sampling
    variance and past four times the variance of the estimates the slope is always negative.
    """
    seen = np.where(studies.present > 0, studies.variance, np.inf)
    least = 1e-3 * seen.min(axis=1)
    largest = (studies.present * studies.variance).max(axis=1)
    most = np.maximum(largest, 4 * sum_of_squares(studies) / (studies.k - 1))
    span = np.log(most / least)
    points = int(np.ceil(span.max() / _LOG_STEP)) + 1
    steps = np.linspace(0.0, 1.0, points)
    rising = least[:, np.newaxis] * np.exp(span[:, np.newaxis] * steps)
    return np.hstack([np.zeros((least.size, 1)), rising])


def maximise(studies: StudyRows, likelihood: Likelihood) -> BetweenStudy:
    """Return the between-study variance of highest likelihood for each analysis."""
    grid = search_grid(studies)
    slopes = np.stack([likelihood.slope(studies, points) for points in grid.T], axis=1)
    row, left = np.nonzero((slopes[:, :-1] > 0) & (slopes[:, 1:] <= 0))
    candidates = studies.rows(row)
    peak, found = bisect_decreasing(
        lambda tau2: likelihood.slope(candidates, tau2), grid[row, left], grid[row, left + 1]
    )
    height = likelihood.log_value(candidates, peak)
    # Of several peaks of one analysis the last written stays: the highest.
    rising = np.argsort(height, kind="stable")
    tau2, best = studies.no_spread, np.full(studies.k.size, -np.inf)
    converged = slopes[:, -1] <= 0
    tau2[row[rising]], best[row[rising]] = peak[rising], height[rising]
    converged[row[rising]] &= found[rising]
    # Zero is a peak where the likelihood does not rise from it.
    at_zero = likelihood.log_value(studies, studies.no_spread)
    zero_is_best = (slopes[:, 0] <= 0) & (at_zero >= best)
    return BetweenStudy(np.where(zero_is_best, 0.0, tau2), converged)
