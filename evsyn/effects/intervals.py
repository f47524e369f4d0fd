"""Intervals for one proportion: a study's row, or a unit's own figure.

Every function takes whole counts, one entry a study, and returns ``(low, high)`` as arrays of
proportions between 0 and 1.
"""

from collections.abc import Callable, Mapping

import numpy as np
from numpy.typing import ArrayLike
from scipy import special

from evsyn.effects.arguments import Floats, as_counts, as_level, as_vector
from evsyn.effects.bisection import bisect_decreasing


def clopper_pearson(
    events: ArrayLike, total: ArrayLike, *, level: float = 0.95
) -> tuple[Floats, Floats]:
    """Return the exact two-sided interval from the two binomial tails.

    Parameters
    ----------
    events, total : array_like of int
        Counts, shape ``(studies,)``.
    level : float
        Two-sided level; each tail holds ``(1 - level) / 2``, also at 0 and 100%.

    Returns
    -------
    low, high : ndarray
        Limits as proportions.

    Raises
    ------
    ValueError
        If the counts are impossible or the level is not between 0 and 1.

    References
    ----------
    Clopper CJ, Pearson ES. Biometrika 1934;26:404-413.
    """
    x, n = as_counts(events, total)
    tail = (1 - as_level(level)) / 2
    # A beta parameter of 0 is not defined, so the two closed ends are set and not solved.
    low = np.where(x == 0, 0.0, special.betaincinv(np.maximum(x, 1), n - x + 1, tail))
    high = np.where(x == n, 1.0, special.betainccinv(x + 1, np.maximum(n - x, 1), tail))
    return low, high


def wilson(events: ArrayLike, total: ArrayLike, *, level: float = 0.95) -> tuple[Floats, Floats]:
    """Return the score interval, without continuity correction.

    Parameters, returns and errors as in :func:`clopper_pearson`.

    References
    ----------
    Wilson EB. J Am Stat Assoc 1927;22:209-212; Newcombe RG. Stat Med 1998;17:857-872, method 3.
    """
    x, n = as_counts(events, total)
    z = special.ndtri((1 + as_level(level)) / 2)
    middle = (x + z**2 / 2) / (n + z**2)
    half = z * np.sqrt(x * (n - x) / n + z**2 / 4) / (n + z**2)
    # The score limits are exactly 0 and 1 at the ends; subtraction would leave a rounding crumb.
    low = np.where(x == 0, 0.0, middle - half)
    high = np.where(x == n, 1.0, middle + half)
    return low, high


def mid_p(events: ArrayLike, total: ArrayLike, *, level: float = 0.95) -> tuple[Floats, Floats]:
    """Return the exact interval whose tails count half the chance of the observed count.

    Parameters, returns and errors as in :func:`clopper_pearson`.

    Notes
    -----
    The limits solve ``P(X > x) + P(X = x) / 2 = a / 2`` and its mirror. They lie inside the
    Clopper-Pearson limits, which therefore bracket the search.

    References
    ----------
    Newcombe RG. Stat Med 1998;17:857-872, method 6.
    """
    x, n = as_counts(events, total)
    return _mid_p_low(x, n, level), 1 - _mid_p_low(n - x, n, level)


def _mid_p_low(x: Floats, n: Floats, level: float) -> Floats:
    tail = (1 - level) / 2
    outer, _ = clopper_pearson(x, n, level=level)
    at_least = np.maximum(x, 1)
    short_of_all = x < n

    def shortfall(p: Floats) -> Floats:
        reached = special.betainc(at_least, n - at_least + 1, p)
        passed = np.where(short_of_all, special.betainc(x + 1, np.maximum(n - x, 1), p), 0.0)
        return np.asarray(tail - (reached + passed) / 2, dtype=np.float64)

    # Without events the bracket is 0 to 0, and so is the limit.
    low, _ = bisect_decreasing(shortfall, outer, x / n)
    return low


def jeffreys(events: ArrayLike, total: ArrayLike, *, level: float = 0.95) -> tuple[Floats, Floats]:
    """Return the equal-tailed interval of the beta(1/2, 1/2) prior.

    Parameters, returns and errors as in :func:`clopper_pearson`.

    Notes
    -----
    The lower limit is 0 when no event was seen, and the upper limit 1 when all were, so that an
    interval never leaves out the value observed.

    References
    ----------
    Brown LD, Cai TT, DasGupta A. Stat Sci 2001;16:101-133, section 4.1.
    """
    x, n = as_counts(events, total)
    tail = (1 - as_level(level)) / 2
    low = np.where(x == 0, 0.0, special.betaincinv(x + 0.5, n - x + 0.5, tail))
    high = np.where(x == n, 1.0, special.betainccinv(x + 0.5, n - x + 0.5, tail))
    return low, high


def one_sided_zero_limit(total: ArrayLike, *, level: float = 0.95) -> Floats:
    """Return the exact one-sided upper limit when no event was seen.

    Parameters
    ----------
    total : array_like of int
        Denominators, shape ``(studies,)``.
    level : float
        One-sided level.

    Returns
    -------
    ndarray
        ``1 - (1 - level) ** (1 / total)``; about ``3 / total`` at 95%.

    Raises
    ------
    ValueError
        If a total is not a whole number of at least 1, or the level is not between 0 and 1.

    References
    ----------
    Hanley JA, Lippman-Hand A. JAMA 1983;249:1743-1745.
    """
    n = _totals(total)
    return np.asarray(-np.expm1(np.log1p(-as_level(level)) / n), dtype=np.float64)


def one_sided_full_limit(total: ArrayLike, *, level: float = 0.95) -> Floats:
    """Return the exact one-sided lower limit when every case had the event.

    Parameters, errors and source as in :func:`one_sided_zero_limit`.

    Returns
    -------
    ndarray
        ``(1 - level) ** (1 / total)``.
    """
    n = _totals(total)
    return np.asarray(np.exp(np.log1p(-as_level(level)) / n), dtype=np.float64)


def _totals(total: ArrayLike) -> Floats:
    n = as_vector("total", total)
    _, n = as_counts(np.zeros_like(n), n)
    return n


#: Interval methods for study rows, by name.
STUDY_INTERVALS: Mapping[str, Callable[..., tuple[Floats, Floats]]] = {
    "clopper_pearson": clopper_pearson,
    "wilson": wilson,
    "mid_p": mid_p,
    "jeffreys": jeffreys,
}
