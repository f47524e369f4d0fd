"""Words for a comparison of two treatments within studies."""

from evsyn.effects.absolute import AbsoluteEffect, Direction, NumberNeeded
from evsyn.pooling.compared import ComparisonAnswer, Contrasted
from evsyn.pooling.result import Pooled, Status
from evsyn.wording.numbers import counted, percent
from evsyn.wording.rows import headline_gives, headline_name

ROW_NAMES = {
    Contrasted.HEADLINE: "DerSimonian-Laird, ordinary",
    Contrasted.RESTRICTED_ML: "Restricted ML, floored Hartung-Knapp",
    Contrasted.MANTEL_HAENSZEL: "Mantel-Haenszel, no halves",
    Contrasted.PETO: "Peto",
    Contrasted.EXACT: "Exact, study baselines conditioned out",
}
CONTRASTS = {
    "risk_ratio": "risk ratio",
    "odds_ratio": "odds ratio",
    "risk_difference": "risk difference",
    "peto": "Peto odds ratio",
}
CONFOUNDED = (
    "Randomised arms are compared within each study; whether its patients are like yours is for "
    "the reader to judge."
)


def value(row: Pooled, contrast: str) -> str:
    """Write an effect with its limits, as ``0.56 (0.43 to 0.72)``.

    Risk differences are written in percentage points.
    """
    if row.status not in (Status.POOLED, Status.ONE_STUDY):
        return "not estimable"
    numbers = (row.estimate, row.low, row.high)
    if contrast == "risk_difference":
        at, low, high = (f"{100 * number:.1f}" for number in numbers)
        return f"{at} points ({low} to {high})"
    at, low, high = (ratio(number) for number in numbers)
    return f"{at} ({low} to {high})"


def ratio(number: float) -> str:
    """Write a ratio with two decimals, or three significant digits where it is small."""
    return f"{number:.2f}" if number >= 0.095 else f"{number:.3g}"


def contrast_of(name: Contrasted, answer: ComparisonAnswer) -> str:
    """Return the contrast a row of an answer is on."""
    if name is Contrasted.EXACT:
        return "odds_ratio"
    if name is Contrasted.PETO:
        return "peto"
    if name is Contrasted.MANTEL_HAENSZEL and answer.reading is Contrasted.MANTEL_HAENSZEL:
        return "odds_ratio"
    return answer.contrast


def comparison_sentence(
    answer: ComparisonAnswer, *, event: str, label: str, refused: str = ""
) -> str:
    """Say what a comparison holds, and no more than it can.

    Parameters
    ----------
    answer : ComparisonAnswer
        The answer.
    event : str
        The outcome inside a sentence.
    label : str
        The comparison, as ``Stent against surgery``.
    refused : str
        The plan's reason, where pooling is refused.
    """
    subject = f"{event[:1].upper()}{event[1:]}, {label[:1].lower()}{label[1:]}"
    if refused:
        return f"{subject}: {counted(answer.k, 'study', 'studies')}; not pooled. {refused}"
    if answer.k == 0:
        return f"{subject}: no study here counts it under both treatments."
    if answer.choice is None:
        number = counted(answer.k, "study", "studies")
        return f"{subject}: {number}; fewer than three are shown and not pooled."
    if answer.reading is None:
        why = "; ".join(str(reason) for reason in answer.choice.reasons)
        return f"{subject}: no row to read ({why}); take the counts only."
    return f"{subject}: {_read(answer, answer.reading)}"


def _read(answer: ComparisonAnswer, name: Contrasted) -> str:
    row = answer.rows[name]
    contrast = contrast_of(name, answer)
    said = (
        f"{CONTRASTS[contrast]} {value(row, contrast)} in {counted(row.k, 'study', 'studies')}, "
        f"by {ROW_NAMES[name]}"
    )
    headline = answer.rows[Contrasted.HEADLINE]
    said += (
        f"; {headline_gives(headline)} {CONTRASTS[answer.contrast]} "
        f"{value(headline, answer.contrast)}. "
    )
    if answer.contrast != "risk_difference" and row.low < 1 < row.high:
        said += "The interval holds no difference as well as differences either way."
    return said.rstrip()


def compared_row_name(name: Contrasted, row: Pooled) -> str:
    """Name a row of a comparison by the method that made it."""
    if name is Contrasted.HEADLINE:
        return f"{headline_name(row.between)}, ordinary"
    return ROW_NAMES[name]


def choice_sentence(answer: ComparisonAnswer) -> str:
    """Say why the row is read, and why Peto's method is or is not shown."""
    if answer.choice is None:
        return ""
    if answer.reading is None:
        return ""
    said = "; ".join(str(reason) for reason in answer.choice.reasons)
    text = f"Why this row: {said}."
    if answer.choice.peto_limits:
        against = "; ".join(str(limit) for limit in answer.choice.peto_limits)
        text += f" Peto's method is left out: {against}."
    return text


def absolute_sentence(effect: AbsoluteEffect, *, first: str, second: str) -> str:
    """Say what a ratio means per 1,000 patients at an assumed risk, with the number needed.

    Parameters
    ----------
    effect : AbsoluteEffect
        The effect.
    first, second : str
        The treatments in the plan's words.
    """
    low, high = sorted((effect.per_1000_low, effect.per_1000_high))
    said = (
        f"Where {percent(effect.baseline)} have it under {second} (assumed): "
        f"{_change(effect.per_1000)} per 1,000 under {first} ({_change(low)} to {_change(high)})"
    )
    if effect.through_infinity:
        return (
            f"{said}; number needed to treat {_needed(effect.needed)} (from "
            f"{_needed(effect.needed_at_low)} through infinity to "
            f"{_needed(effect.needed_at_high)})."
        )
    return (
        f"{said}; number needed to treat {_needed(effect.needed)} "
        f"({_needed(effect.needed_at_low)} to {_needed(effect.needed_at_high)})."
    )


def _change(per_1000: float) -> str:
    number = round(abs(per_1000))
    if number == 0:
        return "none more or fewer"
    return f"{number:,} {'more' if per_1000 > 0 else 'fewer'}"


def _needed(needed: NumberNeeded) -> str:
    if needed.direction is Direction.NEITHER:
        return "infinity"
    return f"{needed.number:,.0f} to {needed.direction}"
