"""Egger's regression test for asymmetry of a funnel plot."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike
from scipy import special

from evsyn.effects.arguments import Floats, as_estimates

#: Squares of precisions about their mean, as a share of all, below which they count as equal.
_ALIKE = 1e-12


@dataclass(frozen=True, slots=True)
class Egger:
    """The answer of Egger's test; ``nan`` where there are too few studies or one precision.

    Parameters
    ----------
    intercept, se : float
        Where the line meets precision 0, in standard errors, and its own standard error.
    t, df, p : float
        The intercept over its standard error, ``k - 2``, and the two-sided P.
    slope : float
        The effect the line gives a study of endless precision, on the scale of the estimates.
    """

    intercept: float
    se: float
    t: float
    df: float
    p: float
    slope: float


def egger(estimate: ArrayLike, variance: ArrayLike) -> Egger:
    """Regress estimate over standard error on one over standard error, unweighted.

    Parameters
    ----------
    estimate, variance : array_like
        One estimate and its sampling variance a study, shape ``(studies,)``; ratios as logarithms.

    Returns
    -------
    Egger
        ``nan`` with fewer than 3 studies, or where all have the same precision. Whether the test
        should be asked at all (never below ten studies, nor of single proportions) is for the
        caller to say.

    Raises
    ------
    ValueError
        If a variance is not above 0, or a value is not finite.

    References
    ----------
    Egger M, Davey Smith G, Schneider M, Minder C. BMJ 1997;315:629-634.
    """
    values, spread = as_estimates(estimate, variance)
    found = regression(values[np.newaxis], spread[np.newaxis])
    intercept, se, t, p, slope = (float(one[0]) for one in found)
    return Egger(intercept, se, t, values.size - 2.0, p, slope)


def regression(estimate: Floats, variance: Floats) -> tuple[Floats, ...]:
    """Return intercept, its standard error, t, P and slope of many tests at once.

    Parameters
    ----------
    estimate, variance : ndarray
        Shape ``(tests, studies)``, already checked.
    """
    tests, k = estimate.shape
    if k < 3:
        return tuple(np.full((5, tests), np.nan))
    x = 1 / np.sqrt(variance)
    y = estimate * x
    centre = x.mean(axis=1)
    away = x - centre[:, np.newaxis]
    squares = (away**2).sum(axis=1)
    squares = np.where(squares > _ALIKE * (x**2).sum(axis=1), squares, np.nan)
    slope = (away * y).sum(axis=1) / squares
    intercept = y.mean(axis=1) - slope * centre
    residual = y - intercept[:, np.newaxis] - slope[:, np.newaxis] * x
    noise = (residual**2).sum(axis=1) / (k - 2)
    se = np.sqrt(noise * (1 / k + centre**2 / squares))
    with np.errstate(divide="ignore", invalid="ignore"):
        t = intercept / se
    return intercept, se, t, 2 * special.stdtr(k - 2, -np.abs(t)), slope
