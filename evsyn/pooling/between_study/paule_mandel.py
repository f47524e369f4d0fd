"""The empirical Bayes estimator of Paule and Mandel."""

import numpy as np

from evsyn.effects.bisection import bisect_decreasing
from evsyn.pooling.between_study.result import BetweenStudy
from evsyn.pooling.between_study.unweighted import sum_of_squares
from evsyn.pooling.studies import StudyRows, weighted_mean


def paule_mandel(studies: StudyRows) -> BetweenStudy:
    """Return the variance at which the generalised Q equals ``k - 1``, or 0 if it never does.

    References
    ----------
    Paule RC, Mandel J. J Res Natl Bur Stand 1982;87:377-385.
    """
    df = studies.k - 1
    is_zero = weighted_mean(studies, studies.no_spread).q <= df
    # Q falls with the variance and never exceeds the unweighted sum of squares over it.
    most = np.where(is_zero, 0.0, sum_of_squares(studies) / df)
    tau2, found = bisect_decreasing(
        lambda tau2: weighted_mean(studies, tau2).q - df, studies.no_spread, most
    )
    return BetweenStudy(np.where(is_zero, 0.0, tau2), found | is_zero)
