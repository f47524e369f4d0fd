"""Study effects laid out by analysis, and the weighted mean every method rests on."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from evsyn.effects.arguments import Floats


@dataclass(frozen=True, slots=True)
class StudyRows:
    """Effects of the studies of each analysis, every analysis holding at least two.

    Parameters
    ----------
    centre : ndarray
        Shape ``(analyses,)``: the estimate of the most precise study of each analysis.
    deviation, variance : ndarray
        Shape ``(analyses, studies)``: estimate less ``centre``, and sampling variance; 0 and 1
        where masked out.
    present : ndarray
        Shape ``(analyses, studies)``: 1 where the study enters, 0 where it is masked out.

    Notes
    -----
    Deviations are taken from the most precise study because the mean of studies of very unequal
    precision lies close to it: a difference formed from that side keeps its digits.
    """

    centre: Floats
    deviation: Floats
    variance: Floats
    present: Floats

    @property
    def k(self) -> Floats:
        """Number of studies in each analysis."""
        return np.asarray(self.present.sum(axis=1), dtype=np.float64)

    def weights(self, tau2: Floats) -> Floats:
        """Return inverse-variance weights given one between-study variance an analysis."""
        return self.present / (self.variance + tau2[:, np.newaxis])

    def rows(self, chosen: NDArray[np.intp]) -> "StudyRows":
        """Return some of the analyses, in the order asked."""
        return StudyRows(
            self.centre[chosen],
            self.deviation[chosen],
            self.variance[chosen],
            self.present[chosen],
        )

    @property
    def no_spread(self) -> Floats:
        """A between-study variance of 0 for each analysis."""
        return np.zeros(self.centre.size)


def study_rows(estimate: Floats, variance: Floats, mask: NDArray[np.bool_]) -> StudyRows:
    """Lay out estimates, shape ``(studies,)`` or ``(analyses, studies)``, by the mask."""
    values = np.where(mask, estimate, 0.0)
    spread = np.where(mask, variance, 1.0)
    sharpest = np.argmin(np.where(mask, variance, np.inf), axis=1)
    centre = np.take_along_axis(values, sharpest[:, np.newaxis], axis=1)
    deviation = np.where(mask, values - centre, 0.0)
    return StudyRows(centre[:, 0], deviation, spread, mask.astype(np.float64))


@dataclass(frozen=True, slots=True)
class WeightedMean:
    """Inverse-variance mean of each analysis at a given between-study variance.

    Parameters
    ----------
    weights, residual : ndarray
        Shape ``(analyses, studies)``; weights are 0 where masked out, and ``residual``
        is estimate less mean, to be used with the weights only.
    mean : ndarray
        Shape ``(analyses,)``, as a deviation from ``StudyRows.centre``.
    se : ndarray
        Standard error of the mean, ``1 / sqrt(sum of weights)``.
    q : ndarray
        Weighted sum of squared residuals; Cochran's Q where the between-study variance is 0.
    """

    weights: Floats
    residual: Floats
    mean: Floats
    se: Floats
    q: Floats


def weighted_mean(studies: StudyRows, tau2: Floats) -> WeightedMean:
    """Return the inverse-variance mean of each analysis, weights ``1 / (variance + tau2)``."""
    weights = studies.weights(tau2)
    total = weights.sum(axis=1)
    mean = (weights * studies.deviation).sum(axis=1) / total
    residual = studies.deviation - mean[:, np.newaxis]
    return WeightedMean(weights, residual, mean, 1 / np.sqrt(total), (weights * residual**2).sum(1))


def weight_spread(weights: Floats) -> Floats:
    """Return ``sum(w) - sum(w ** 2) / sum(w)`` of each row, without cancellation.

    Written as a sum of products of one weight with all others, so that one study far more precise
    than the rest does not wipe out the digits.
    """
    heaviest = np.argmax(weights, axis=1)[:, np.newaxis]
    top = np.take_along_axis(weights, heaviest, axis=1)[:, 0]
    others = weights.copy()
    np.put_along_axis(others, heaviest, 0.0, axis=1)
    rest = others.sum(axis=1)
    total = top + rest
    products = top * rest + (others * (total[:, np.newaxis] - others)).sum(axis=1)
    return np.asarray(products / total, dtype=np.float64)
