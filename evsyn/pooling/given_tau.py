"""The pooled estimate at a stated spread, and the largest spread the studies leave open."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from evsyn.effects.arguments import Floats, as_estimates
from evsyn.effects.bisection import bisect_decreasing
from evsyn.pooling.between_study.likelihood import RESTRICTED, search_grid
from evsyn.pooling.between_study.restricted_ml import restricted_ml
from evsyn.pooling.studies import StudyRows, study_rows, weighted_mean


@dataclass(frozen=True, slots=True)
class SummaryAtTau:
    """The pooled estimate at one between-study standard deviation.

    Parameters
    ----------
    tau : float
        Between-study standard deviation, analysis scale.
    estimate, se : float
        Inverse-variance mean with weights ``1 / (variance + tau ** 2)``, and its standard error.
    """

    tau: float
    estimate: float
    se: float


def summary_at_tau(estimate: ArrayLike, variance: ArrayLike, tau: float) -> SummaryAtTau:
    """Pool with the between-study standard deviation given.

    Parameters
    ----------
    estimate, variance : array_like
        Effects and sampling variances, shape ``(studies,)``, analysis scale.
    tau : float
        Between-study standard deviation.

    Returns
    -------
    SummaryAtTau

    Raises
    ------
    ValueError
        If there is no study, an effect cannot be pooled, or tau is negative or not finite.
    """
    if not 0 <= tau < np.inf:
        raise ValueError(f"tau must be 0 or above, and finite; got {tau!r}")
    return _at(_one_analysis(estimate, variance, least=1), float(tau))


def summary_at_largest_tau(
    estimate: ArrayLike, variance: ArrayLike, *, drop: float = 0.5
) -> SummaryAtTau:
    """Pool at the largest spread that the restricted likelihood still supports.

    Parameters
    ----------
    estimate, variance : array_like
        Effects and sampling variances, shape ``(studies,)``, analysis scale.
    drop : float
        How far below its maximum the restricted profile log-likelihood has fallen there.

    Returns
    -------
    SummaryAtTau
        The larger ``tau`` at that height, with estimate and standard error formed anew.

    Raises
    ------
    ValueError
        If there are fewer than two studies, an effect cannot be pooled, or drop is not above 0.
    """
    if not 0 < drop < np.inf:
        raise ValueError(f"drop must be above 0, and finite; got {drop!r}")
    studies = _one_analysis(estimate, variance, least=2)
    return _at(studies, float(np.sqrt(_largest_tau2(studies, drop)[0])))


def _one_analysis(estimate: ArrayLike, variance: ArrayLike, *, least: int) -> StudyRows:
    values, spread = as_estimates(estimate, variance)
    if values.size < least:
        raise ValueError(f"estimate must hold at least {least} studies; got {values.size}")
    mask: NDArray[np.bool_] = np.ones((1, values.size), dtype=np.bool_)
    return study_rows(values, spread, mask)


def _at(studies: StudyRows, tau: float) -> SummaryAtTau:
    at = weighted_mean(studies, np.array([tau**2]))
    return SummaryAtTau(tau, float(studies.centre[0] + at.mean[0]), float(at.se[0]))


def _largest_tau2(studies: StudyRows, drop: float) -> Floats:
    peak = restricted_ml(studies).tau2
    floor = RESTRICTED.log_value(studies, peak) - drop

    def above_floor(tau2: Floats) -> Floats:
        return RESTRICTED.log_value(studies, tau2) - floor

    points = [point for point in search_grid(studies).T if point[0] > peak[0]]
    # Past the grid the likelihood only falls, without limit.
    points = points or [2 * peak]
    while above_floor(points[-1])[0] > 0:
        points.append(4 * points[-1])
    low = peak
    for place, point in enumerate(points):
        if above_floor(point)[0] > 0:
            low, high = point, points[place + 1]
    if low is peak:
        high = points[0]
    root, _ = bisect_decreasing(above_floor, low, high)
    return root
