"""The moment estimator of DerSimonian and Laird."""

from evsyn.effects.arguments import Floats
from evsyn.pooling.between_study.result import BetweenStudy, closed_form
from evsyn.pooling.studies import StudyRows, WeightedMean, weight_spread, weighted_mean


def dersimonian_laird(studies: StudyRows) -> BetweenStudy:
    """Return ``(Q - (k - 1)) / (sum(w) - sum(w ** 2) / sum(w))``, cut at zero.

    ``w`` is one over the sampling variance and ``Q`` is taken about the inverse-variance mean.

    References
    ----------
    DerSimonian R, Laird N. Control Clin Trials 1986;7:177-188.
    """
    common = weighted_mean(studies, studies.no_spread)
    return moment_estimate(common.q, common, studies.k)


def moment_estimate(q: Floats, common: WeightedMean, k: Floats) -> BetweenStudy:
    """Return the same from a Q taken about any centre."""
    return closed_form((q - (k - 1)) / weight_spread(common.weights))
