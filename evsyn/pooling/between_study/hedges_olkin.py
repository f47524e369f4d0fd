"""The unweighted moment estimator of Hedges and Olkin."""

from evsyn.pooling.between_study.result import BetweenStudy, closed_form
from evsyn.pooling.between_study.unweighted import sum_of_squares
from evsyn.pooling.studies import StudyRows


def hedges_olkin(studies: StudyRows) -> BetweenStudy:
    """Return the sample variance of the estimates less their mean sampling variance, cut at zero.

    References
    ----------
    Hedges LV, Olkin I. Statistical Methods for Meta-Analysis. Academic Press, 1985, chapter 9.
    """
    sampling = (studies.present * studies.variance).sum(axis=1) / studies.k
    return closed_form(sum_of_squares(studies) / (studies.k - 1) - sampling)
