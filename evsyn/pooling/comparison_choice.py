"""Which row of a comparison is read, and why.

With rare events, inverse-variance rows with added halves are biased towards no difference, and a
common Mantel-Haenszel odds ratio without halves is not (Bradburn MJ et al. Stat Med
2007;26:53-77; Cochrane Handbook for Systematic Reviews of Interventions 5.1.0, section 16.9.5).
The limits of what counts as rare, balanced and moderate are working rules of this package.
"""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import ArrayLike

from evsyn.effects.arguments import known_word
from evsyn.effects.two_arms import RATIOS, TWO_ARM_EFFECTS, TwoArms, read_two_arms
from evsyn.pooling.mantel_haenszel import mantel_haenszel

LEAST_TO_READ = 3
RARE, VERY_RARE = 0.05, 0.01
LARGEST_IMBALANCE = 1.5
LARGEST_PETO_RATIO = 2.0


class ComparisonRow(StrEnum):
    """Rows that may be read."""

    MANTEL_HAENSZEL = "mantel_haenszel"
    RESTRICTED_ML = "restricted_ml"


class ComparisonReason(StrEnum):
    """Why a row is read, or why none is."""

    RARE = "the crude risk of an arm is below 5% or above 95%"
    ORDINARY = "the crude risks of both arms lie between 5% and 95%"
    TOO_FEW = "fewer than three studies inform the comparison"
    OPEN = "one arm has no event, or only events, in all: there is no ratio"


class PetoLimit(StrEnum):
    """Conditions of Peto's method that do not hold."""

    NOT_RARE = "the crude risk of an arm is not below 1% (or above 99%)"
    UNBALANCED = "the arms of a study differ in size by more than 1.5 to 1"
    LARGE = "the Mantel-Haenszel odds ratio does not lie between 0.5 and 2"


@dataclass(frozen=True, slots=True)
class ComparisonChoice:
    """The row to read.

    Parameters
    ----------
    row : ComparisonRow or None
        Which row; ``None`` where counts alone are shown.
    reasons : tuple of ComparisonReason
        Why.
    options : dict
        What to ask of :func:`evsyn.pool_comparisons` for that row; empty without one.
    peto_limits : tuple of PetoLimit
        What speaks against Peto's method; it belongs in a report only where this is empty.
    """

    row: ComparisonRow | None
    reasons: tuple[ComparisonReason, ...]
    options: dict[str, str]
    peto_limits: tuple[PetoLimit, ...]


def choose_comparison_row(
    events_1: ArrayLike,
    total_1: ArrayLike,
    events_2: ArrayLike,
    total_2: ArrayLike,
    *,
    contrast: str = "risk_ratio",
) -> ComparisonChoice:
    """Say which row of a comparison is read.

    Parameters
    ----------
    events_1, total_1, events_2, total_2 : array_like of int
        Counts of each arm, one entry a study.
    contrast : str
        Contrast of the two-step row, as in :func:`evsyn.pool_comparisons`.

    Returns
    -------
    ComparisonChoice
        The Mantel-Haenszel odds ratio without halves where the crude risk of either arm is below
        5% or above 95%; else restricted maximum likelihood with floored Hartung-Knapp; none below
        three studies that inform it, or where one arm has no event (or only events) in all.

    Raises
    ------
    ValueError
        If the counts are impossible or the contrast is not known.
    """
    arms = read_two_arms(events_1, total_1, events_2, total_2)
    known_word("contrast", contrast, TWO_ARM_EFFECTS)
    rare = min(_crude(arms)) < RARE
    common_ratio = _common_odds_ratio(arms)
    limits = _peto_limits(arms, common_ratio)
    informing = arms.informs_ratio | (contrast not in RATIOS and not rare)
    if informing.sum() < LEAST_TO_READ:
        return ComparisonChoice(None, (ComparisonReason.TOO_FEW,), {}, limits)
    if not rare:
        options = {
            "contrast": contrast,
            "model": "random",
            "between": "restricted_ml",
            "interval": "hartung_knapp_floor",
        }
        ordinary = (ComparisonReason.ORDINARY,)
        return ComparisonChoice(ComparisonRow.RESTRICTED_ML, ordinary, options, limits)
    if np.isnan(common_ratio):
        undefined = (ComparisonReason.RARE, ComparisonReason.OPEN)
        return ComparisonChoice(None, undefined, {}, limits)
    options = {"contrast": "odds_ratio", "model": "mantel_haenszel"}
    rare_events = (ComparisonReason.RARE,)
    return ComparisonChoice(ComparisonRow.MANTEL_HAENSZEL, rare_events, options, limits)


def _crude(arms: TwoArms) -> tuple[float, float]:
    """Return the crude risk of each arm, counted from the nearer end; 0.5 without a study."""
    if not arms.total.size:
        return 0.5, 0.5
    risk_1 = float(arms.yes_1.sum() / arms.total_1.sum())
    risk_2 = float(arms.yes_2.sum() / arms.total_2.sum())
    return min(risk_1, 1 - risk_1), min(risk_2, 1 - risk_2)


def _common_odds_ratio(arms: TwoArms) -> float:
    mask = arms.informs_ratio[np.newaxis, :]
    return float(np.exp(mantel_haenszel(arms, mask, "odds_ratio").estimate[0]))


def _peto_limits(arms: TwoArms, common_ratio: float) -> tuple[PetoLimit, ...]:
    larger, smaller = np.maximum(arms.total_1, arms.total_2), np.minimum(arms.total_1, arms.total_2)
    moderate = 1 / LARGEST_PETO_RATIO <= common_ratio <= LARGEST_PETO_RATIO
    against = {
        PetoLimit.NOT_RARE: max(_crude(arms)) >= VERY_RARE,
        PetoLimit.UNBALANCED: bool(np.any(larger > LARGEST_IMBALANCE * smaller)),
        PetoLimit.LARGE: not moderate,
    }
    return tuple(limit for limit, holds in against.items() if holds)
