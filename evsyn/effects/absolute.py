"""What a ratio means per 1,000 patients at a stated baseline risk, and the number needed to treat.

The limits push those of the ratio through; the baseline risk is taken as known, so its own
uncertainty is not in them.
"""

import math
from dataclasses import dataclass
from enum import StrEnum

from evsyn.effects.arguments import known_word


class Direction(StrEnum):
    """Whom the number needed to treat counts."""

    BENEFIT = "benefit"
    HARM = "harm"
    NEITHER = "neither"


@dataclass(frozen=True, slots=True)
class NumberNeeded:
    """Patients to treat for one more (or one fewer) to have the outcome.

    Parameters
    ----------
    number : float
        Rounded up to a whole number; infinite where there is no difference.
    direction : Direction
        Whether treatment helps or harms that one.
    """

    number: float
    direction: Direction


@dataclass(frozen=True, slots=True)
class AbsoluteEffect:
    """The effect of arm 1 at one baseline risk.

    Parameters
    ----------
    baseline : float
        Risk assumed in arm 2, between 0 and 1.
    risk, risk_low, risk_high : float
        Risk in arm 1 with its limits, between 0 and 1.
    per_1000, per_1000_low, per_1000_high : float
        Arm 1 less arm 2, per 1,000 patients; below 0 means fewer.
    needed : NumberNeeded
        Number needed to treat at the estimate.
    needed_at_low, needed_at_high : NumberNeeded
        The same at the two limits of the difference.
    through_infinity : bool
        Whether the limits lie on opposite sides of no effect: the range then runs from one number
        needed to benefit through infinity to one needed to harm.
    cut : bool
        Whether a risk ratio times the baseline went above 1 and was cut there.
    """

    baseline: float
    risk: float
    risk_low: float
    risk_high: float
    per_1000: float
    per_1000_low: float
    per_1000_high: float
    needed: NumberNeeded
    needed_at_low: NumberNeeded
    needed_at_high: NumberNeeded
    through_infinity: bool
    cut: bool


def absolute_effect(
    estimate: float,
    low: float,
    high: float,
    *,
    baseline: float,
    contrast: str,
    better: str = "fewer",
) -> AbsoluteEffect:
    """Return what a risk ratio or odds ratio means at a baseline risk.

    Parameters
    ----------
    estimate, low, high : float
        Ratio of arm 1 over arm 2, with its limits.
    baseline : float
        Risk assumed in arm 2, strictly between 0 and 1.
    contrast : {"risk_ratio", "odds_ratio"}
        Which ratio.
    better : {"fewer", "more"}
        Whether fewer or more outcomes are good for the patient.

    Returns
    -------
    AbsoluteEffect

    Raises
    ------
    ValueError
        If the baseline lies outside, the ratio is negative, limits are not in order, or a word is
        not known.

    References
    ----------
    Cochrane Handbook for Systematic Reviews of Interventions 5.1.0, sections 12.5.4.0 to 12.5.4.5;
    Altman DG. BMJ 1998;317:1309-1312 (limits through infinity).
    """
    known_word("contrast", contrast, ("risk_ratio", "odds_ratio"))
    known_word("better", better, ("fewer", "more"))
    if not 0 < baseline < 1:
        raise ValueError(f"baseline must lie between 0 and 1, as 0.05; got {baseline!r}")
    if not 0 <= low <= estimate <= high:
        raise ValueError(f"low, estimate, high must rise from 0; got {low}, {estimate}, {high}")
    at, at_low, at_high = (
        _difference(ratio, baseline, contrast) for ratio in (estimate, low, high)
    )
    return AbsoluteEffect(
        baseline,
        risk=baseline + at,
        risk_low=baseline + at_low,
        risk_high=baseline + at_high,
        per_1000=1000 * at,
        per_1000_low=1000 * at_low,
        per_1000_high=1000 * at_high,
        needed=number_needed(at, better=better),
        needed_at_low=number_needed(at_low, better=better),
        needed_at_high=number_needed(at_high, better=better),
        through_infinity=low < 1 < high,
        cut=contrast == "risk_ratio" and high * baseline > 1,
    )


def number_needed(risk_difference: float, *, better: str = "fewer") -> NumberNeeded:
    """Return the number needed to treat, one over the difference of risks, rounded up.

    Parameters
    ----------
    risk_difference : float
        Arm 1 less arm 2, between -1 and 1.
    better : {"fewer", "more"}
        Whether fewer or more outcomes are good for the patient.

    Raises
    ------
    ValueError
        If the difference is not between -1 and 1, or ``better`` is not known.

    References
    ----------
    Cochrane Handbook for Systematic Reviews of Interventions 5.1.0, section 12.5.4.
    """
    known_word("better", better, ("fewer", "more"))
    if not -1 <= risk_difference <= 1:
        raise ValueError(f"risk_difference must lie between -1 and 1; got {risk_difference!r}")
    if risk_difference == 0:
        return NumberNeeded(math.inf, Direction.NEITHER)
    helps = (risk_difference < 0) == (better == "fewer")
    # One in 20 is stored as slightly more than 20 patients: rounding dust must not make it 21.
    exact = 1 / abs(risk_difference) * (1 - 1e-9)
    number = float(math.ceil(exact)) if math.isfinite(exact) else math.inf
    return NumberNeeded(number, Direction.BENEFIT if helps else Direction.HARM)


def _difference(ratio: float, baseline: float, contrast: str) -> float:
    """Return risk in arm 1 less baseline, exactly 0 at a ratio of 1.

    The risk is ``RR p``, cut at 1, or ``OR p / (1 - p + OR p)``.
    """
    if contrast == "risk_ratio":
        return min(baseline * (ratio - 1), 1 - baseline)
    if math.isinf(ratio):
        return 1 - baseline
    return baseline * (1 - baseline) * (ratio - 1) / (1 - baseline + ratio * baseline)
