"""Mantel and Haenszel's common ratio or difference, for every analysis of a grid at once."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from evsyn.effects.arguments import Floats
from evsyn.effects.two_arms import TwoArms


@dataclass(frozen=True, slots=True)
class MantelHaenszel:
    """Common effect of each analysis, on the analysis scale (logarithm of a ratio).

    Parameters
    ----------
    estimate, se : ndarray
        Shape ``(analyses,)``; ``nan`` where the sums leave the effect open, as where one arm has
        no event at all.
    weights : ndarray
        Shape ``(analyses, studies)``: the weight of each study's own ratio or difference.
    """

    estimate: Floats
    se: Floats
    weights: Floats


def mantel_haenszel(arms: TwoArms, mask: NDArray[np.bool_], contrast: str) -> MantelHaenszel:
    """Pool the cells as they are given; zero cells need no correction.

    Parameters
    ----------
    arms : TwoArms
        Cells of the studies, with halves added where that is wanted.
    mask : ndarray of bool
        Shape ``(analyses, studies)``: which studies enter which analysis.
    contrast : {"odds_ratio", "risk_ratio", "risk_difference"}
        The effect that all studies are taken to share.

    Returns
    -------
    MantelHaenszel

    References
    ----------
    Mantel N, Haenszel W. J Natl Cancer Inst 1959;22:719-748.
    """
    return METHODS[contrast](arms, mask.astype(np.float64))


def _odds_ratio(arms: TwoArms, use: Floats) -> MantelHaenszel:
    """Return log odds ratios with the variance of Robins, Breslow and Greenland.

    With ``P = (a + d) / N``, ``Q = (b + c) / N``, ``R = a d / N``, ``S = b c / N``, the variance is
    ``sum(P R) / (2 sum(R)^2) + sum(P S + Q R) / (2 sum(R) sum(S)) + sum(Q S) / (2 sum(S)^2)``.

    References
    ----------
    Robins J, Breslow N, Greenland S. Biometrics 1986;42:311-323.
    """
    n = arms.total
    p, q = (arms.yes_1 + arms.no_2) / n, (arms.no_1 + arms.yes_2) / n
    r, s = arms.yes_1 * arms.no_2 / n, arms.no_1 * arms.yes_2 / n
    top, bottom = use @ r, use @ s
    known = (top > 0) & (bottom > 0)
    over_r, over_s = _one_over(top, known), _one_over(bottom, known)
    variance = (use @ (p * r)) * over_r**2 + (use @ (q * s)) * over_s**2
    variance = (variance + (use @ (p * s + q * r)) * over_r * over_s) / 2
    return _with_log(top, bottom, variance, use * s)


def _risk_ratio(arms: TwoArms, use: Floats) -> MantelHaenszel:
    """Return log risk ratios with the variance of Greenland and Robins.

    References
    ----------
    Greenland S, Robins JM. Biometrics 1985;41:55-68.
    """
    n, n_1, n_2 = arms.total, arms.total_1, arms.total_2
    r, s = arms.yes_1 * n_2 / n, arms.yes_2 * n_1 / n
    events = arms.yes_1 + arms.yes_2
    spread = (n_1 / n) * (n_2 / n) * events - arms.yes_1 * arms.yes_2 / n
    top, bottom = use @ r, use @ s
    known = (top > 0) & (bottom > 0)
    variance = (use @ spread) * _one_over(top, known) * _one_over(bottom, known)
    return _with_log(top, bottom, variance, use * s)


def _risk_difference(arms: TwoArms, use: Floats) -> MantelHaenszel:
    """Return risk differences with the variance of Greenland and Robins.

    References
    ----------
    Greenland S, Robins JM. Biometrics 1985;41:55-68.
    """
    n, n_1, n_2 = arms.total, arms.total_1, arms.total_2
    weight = n_1 * n_2 / n
    difference = arms.yes_1 / n_1 - arms.yes_2 / n_2
    within = arms.yes_1 * arms.no_1 / n_1**3 + arms.yes_2 * arms.no_2 / n_2**3
    total = use @ weight
    some = total > 0
    variance = (use @ (weight**2 * within)) * _one_over(total, some) ** 2
    known = some & (variance > 0)
    estimate = np.where(known, (use @ (weight * difference)) * _one_over(total, some), np.nan)
    return MantelHaenszel(estimate, np.sqrt(np.where(known, variance, np.nan)), use * weight)


def _with_log(top: Floats, bottom: Floats, variance: Floats, weights: Floats) -> MantelHaenszel:
    known = (top > 0) & (bottom > 0) & (variance > 0)
    log_ratio = np.log(np.where(known, top, np.nan)) - np.log(np.where(known, bottom, np.nan))
    return MantelHaenszel(log_ratio, np.sqrt(np.where(known, variance, np.nan)), weights)


def _one_over(values: Floats, known: NDArray[np.bool_]) -> Floats:
    return 1 / np.where(known, values, np.nan)


#: How to pool each contrast.
METHODS = {
    "odds_ratio": _odds_ratio,
    "risk_ratio": _risk_ratio,
    "risk_difference": _risk_difference,
}
