"""The model error variance estimator of Sidik and Jonkman."""

from evsyn.pooling.between_study.result import BetweenStudy, closed_form
from evsyn.pooling.between_study.unweighted import sum_of_squares
from evsyn.pooling.studies import StudyRows, weighted_mean


def sidik_jonkman(studies: StudyRows) -> BetweenStudy:
    """Return the weighted spread of the estimates, with weights from their crude spread.

    With ``t0`` the mean squared distance of the estimates from their plain mean, the answer is
    ``t0 / (k - 1) * sum((y - mean) ** 2 / (v + t0))``, the mean taken with weights
    ``1 / (v + t0)``. It is above 0 unless all estimates are equal.

    References
    ----------
    Sidik K, Jonkman JN. J R Stat Soc C 2005;54:367-384.
    """
    crude = sum_of_squares(studies) / studies.k
    return closed_form(crude * weighted_mean(studies, crude).q / (studies.k - 1))
