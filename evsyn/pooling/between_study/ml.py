"""The maximum likelihood estimator."""

from evsyn.pooling.between_study.likelihood import MAXIMUM_LIKELIHOOD, maximise
from evsyn.pooling.between_study.result import BetweenStudy
from evsyn.pooling.studies import StudyRows


def ml(studies: StudyRows) -> BetweenStudy:
    """Return the variance at the global maximum of the profile likelihood.

    References
    ----------
    Hardy RJ, Thompson SG. Stat Med 1996;15:619-629.
    """
    return maximise(studies, MAXIMUM_LIKELIHOOD)
