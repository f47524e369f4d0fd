"""The restricted maximum likelihood estimator."""

from evsyn.pooling.between_study.likelihood import RESTRICTED, maximise
from evsyn.pooling.between_study.result import BetweenStudy
from evsyn.pooling.studies import StudyRows


def restricted_ml(studies: StudyRows) -> BetweenStudy:
    """Return the variance at the global maximum of the restricted likelihood.

    References
    ----------
    Viechtbauer W. J Educ Behav Stat 2005;30:261-293.
    """
    return maximise(studies, RESTRICTED)
