"""The moment estimator of DerSimonian and Laird."""

from evsyn.pooling.between_study.result import BetweenStudy, closed_form
from evsyn.pooling.studies import StudyRows, weight_spread, weighted_mean


def dersimonian_laird(studies: StudyRows) -> BetweenStudy:
    """Return ``(Q - (k - 1)) / (sum(w) - sum(w ** 2) / sum(w))``, cut at zero.

    ``w`` is one over the sampling variance and ``Q`` is taken about the inverse-variance mean.

    References
    ----------
    DerSimonian R, Laird N. Control Clin Trials 1986;7:177-188.
    """
    common = weighted_mean(studies, studies.no_spread)
    return closed_form((common.q - (studies.k - 1)) / weight_spread(common.weights))
