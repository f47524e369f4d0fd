"""The Q-profile interval of the between-study variance."""

import numpy as np
from scipy import special

from evsyn.effects.arguments import Floats
from evsyn.effects.bisection import bisect_decreasing
from evsyn.pooling.between_study.unweighted import sum_of_squares
from evsyn.pooling.studies import StudyRows, weighted_mean


def q_profile(studies: StudyRows, level: float) -> tuple[Floats, Floats]:
    """Return the variances at which the generalised Q meets its own two chi-squared limits.

    Parameters
    ----------
    studies : StudyRows
        Effects by analysis.
    level : float
        Two-sided level.

    Returns
    -------
    low, high : ndarray
        Shape ``(analyses,)``; 0 where Q is already below the limit with no spread at all.

    References
    ----------
    Viechtbauer W. Stat Med 2007;26:37-52.
    """
    tail = (1 - level) / 2
    df = studies.k - 1
    return (
        _where_q_falls_to(special.chdtri(df, tail), studies),
        _where_q_falls_to(special.chdtri(df, 1 - tail), studies),
    )


def _where_q_falls_to(limit: Floats, studies: StudyRows) -> Floats:
    is_zero = weighted_mean(studies, studies.no_spread).q <= limit
    # Q at a given variance never exceeds the unweighted sum of squares over it.
    most = np.where(is_zero, 0.0, sum_of_squares(studies) / limit)
    root, _ = bisect_decreasing(
        lambda tau2: weighted_mean(studies, tau2).q - limit, studies.no_spread, most
    )
    return np.where(is_zero, 0.0, root)
