"""Do small studies differ from large ones: a weighted line through their results."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike
from scipy.special import stdtr

from evsyn.effects.arguments import Floats, as_counts
from evsyn.effects.proportions import logit_effects
from evsyn.effects.two_arms import log_odds_ratios, read_two_arms

#: Squares of a line's regressor about its mean, as a share of all, below which all are alike.
_ALIKE = 1e-12


@dataclass(frozen=True, slots=True)
class SmallStudyLine:
    """One weighted regression, and the coefficient that is tested; ``nan`` where there is none.

    Parameters
    ----------
    method : str
        ``peters``, ``harbord`` or ``peters_proportions``.
    k : int
        Studies in the line.
    tested, se, t, df, p : float
        The coefficient that is 0 where size makes no difference, its standard error, t on
        ``k - 2`` and the two-sided P.
    other : float
        The other coefficient: what the line gives a study of endless size, on the log-odds scale.
    """

    method: str
    k: int
    tested: float
    se: float
    t: float
    df: float
    p: float
    other: float


def peters(
    events_1: ArrayLike, total_1: ArrayLike, events_2: ArrayLike, total_2: ArrayLike
) -> SmallStudyLine:
    """Regress log odds ratios on one over the size of the study.

    Parameters
    ----------
    events_1, total_1, events_2, total_2 : array_like of int
        Counts of each arm, shape ``(studies,)``.

    Returns
    -------
    SmallStudyLine
        Its ``tested`` is the slope. Weights are ``events * others / patients`` of both arms
        together, which do not hang on the odds ratio. Studies without an event, or with events
        only, are left out; half is added to all cells of those with an empty cell.

    Raises
    ------
    ValueError
        If the counts are impossible.

    References
    ----------
    Peters JL, Sutton AJ, Jones DR, Abrams KR, Rushton L. JAMA 2006;295:676-680.
    """
    arms = read_two_arms(events_1, total_1, events_2, total_2)
    arms = arms.take(arms.informs_ratio)
    weight = (arms.yes_1 + arms.yes_2) * (arms.no_1 + arms.no_2) / arms.total
    return _line("peters", log_odds_ratios(arms).estimate, 1 / arms.total, weight, tests_slope=True)


def harbord(
    events_1: ArrayLike, total_1: ArrayLike, events_2: ArrayLike, total_2: ArrayLike
) -> SmallStudyLine:
    """Regress the efficient score over its standard error on that standard error.

    Parameters
    ----------
    events_1, total_1, events_2, total_2 : array_like of int
        Counts of each arm, shape ``(studies,)``.

    Returns
    -------
    SmallStudyLine
        Its ``tested`` is the intercept. The score is observed less expected events of arm 1, its
        variance the hypergeometric one; no count is changed. Studies without an event, or with
        events only, are left out.

    Raises
    ------
    ValueError
        If the counts are impossible.

    References
    ----------
    Harbord RM, Egger M, Sterne JAC. Stat Med 2006;25:3443-3457.
    """
    arms = read_two_arms(events_1, total_1, events_2, total_2)
    arms = arms.take(arms.informs_ratio)
    events, others = arms.yes_1 + arms.yes_2, arms.no_1 + arms.no_2
    score = arms.yes_1 - arms.total_1 * events / arms.total
    spread = arms.total_1 * arms.total_2 * events * others / (arms.total**2 * (arms.total - 1))
    root = np.sqrt(spread)
    return _line("harbord", score / root, root, np.ones(root.size), tests_slope=False)


def peters_proportions(events: ArrayLike, total: ArrayLike) -> SmallStudyLine:
    """Regress log-odds of single proportions on one over the size, weighted by the size.

    Parameters
    ----------
    events, total : array_like of int
        Counts, shape ``(studies,)``.

    Returns
    -------
    SmallStudyLine
        Its ``tested`` is the slope. Half is added to studies at 0% or 100%.

    Raises
    ------
    ValueError
        If the counts are impossible.

    Notes
    -----
    Peters' weights do not hang on the result of the study; for single proportions weights by size
    share that, being inverse variances at one common rate. Inverse variances of the log-odds
    themselves do not: they favour studies that happened to show more events. The half event of
    studies at 0% or 100% does hang on result and size, so that ``p`` is not to be read where
    events are few.

    References
    ----------
    After Peters JL et al. JAMA 2006;295:676-680, which treats two arms.
    """
    _, n = as_counts(events, total)
    return _line(
        "peters_proportions", logit_effects(events, total).estimate, 1 / n, n, tests_slope=True
    )


def _line(
    method: str, y: Floats, x: Floats, weight: Floats, *, tests_slope: bool
) -> SmallStudyLine:
    """Fit one line by weighted least squares, its noise estimated from the residuals."""
    k = y.size
    nan = float("nan")
    nothing = SmallStudyLine(method, k, tested=nan, se=nan, t=nan, df=k - 2.0, p=nan, other=nan)
    if k < 3:
        return nothing
    sum_of = float(weight.sum())
    centre = float(weight @ x) / sum_of
    squares = float(weight @ (x - centre) ** 2)
    if squares <= _ALIKE * float(weight @ x**2):
        return nothing
    slope = float(weight @ ((x - centre) * y)) / squares
    intercept = float(weight @ y) / sum_of - slope * centre
    noise = float(weight @ (y - intercept - slope * x) ** 2) / (k - 2)
    share = 1 / squares if tests_slope else 1 / sum_of + centre**2 / squares
    tested, other = (slope, intercept) if tests_slope else (intercept, slope)
    se = float(np.sqrt(noise * share))
    t = float(np.divide(tested, se)) if se > 0 else float("nan")
    return SmallStudyLine(
        method, k, tested, se, t, k - 2.0, float(2 * stdtr(k - 2, -abs(t))), other
    )
