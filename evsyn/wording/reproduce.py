"""What became of a published pooling, in sentences."""

from collections.abc import Sequence

from evsyn.reproduction.compare import Check, Match
from evsyn.reproduction.recompute import Place
from evsyn.reproduction.verdict import ROW_PLACES, Reproduction, Verdict
from evsyn.wording.numbers import counted

_NAMES = {
    "estimate": "pooled value",
    "low": "lower limit",
    "high": "upper limit",
    "q": "Q",
    "df": "df",
    "p_heterogeneity": "P of heterogeneity",
    "i2": "I2",
    "tau2": "tau2",
    "tau": "tau",
    "z": "z or t",
    "p_effect": "P of effect",
    "on_scale": "value on its scale",
    "se_on_scale": "its standard error",
    "q_likelihood": "Q by likelihood",
    "prediction_low": "prediction, lower",
    "prediction_high": "prediction, upper",
    "intercept": "intercept",
    "t": "t",
    "p": "P",
}
_LINES = {"overall": "Total", "between": "Between groups", "asymmetry": "Egger's test"}
_MATCHES = {
    Match.EXACT: "as printed",
    Match.ROUNDING: "within rounding of rows",
    Match.NO: "NOT as printed",
    Match.NONE: "NOT GIVEN by this variant",
}

#: So many numbers are named in a sentence; the table has all.
_NAMED = 8
#: Of verdicts on method, what a reader must not take them for.
CLOSING = (
    "Reproduced means that the arithmetic can be redone from these rows. It says nothing of "
    "whether the rows are what the trials found, whether they should be pooled, or whether the "
    "method was a good one. So many variants are tried that a number wrong by a unit or two of its "
    "last decimal may fit another of them by chance, the sooner the fewer numbers are printed."
)


def verdict_sentence(found: Reproduction) -> str:
    """Say whether the printed numbers could be had, and how many."""
    best = found.best[0]
    total, missed = len(best.checks), len(best.misfits)
    numbers = counted(total, "printed number", "printed numbers")
    if found.verdict is Verdict.SINGLY:
        return (
            f"Not reproduced as a whole: each of {numbers} can be had by itself, "
            f"{len(best.by_rounding)} of them within the rounding of the rows, but no one set of "
            "rows was found that gives all of them."
        )
    if found.verdict is Verdict.REPRODUCED:
        said = f"Reproduced: {'the' if total == 1 else 'all'} {numbers}"
    elif found.verdict is Verdict.EXCEPT:
        said = f"Reproduced except {missed} of {numbers}"
    else:
        said = (
            f"Not reproducible: none of {counted(found.tried, 'variant', 'variants')} gives the "
            f"printed pooled value with its limits; the nearest gives {total - missed} of {numbers}"
        )
    by_rounding = len(best.by_rounding)
    if by_rounding:
        of = "them" if found.verdict is Verdict.REPRODUCED else "those that fit"
        how = "each by itself"
        if best.together:
            how = "all at once for one set of rows that would be printed alike"
        said += f"; {by_rounding} of {of} within the rounding of the rows, {how}"
    return f"{said}."


def misfits_sentence(found: Reproduction, studies: Sequence[str]) -> str:
    """Name what is not as printed, and for the nearest variant of none also what is."""
    best = found.best[0]
    said = f"Not as printed: {_named(best.misfits, studies)}."
    if found.verdict is Verdict.NOT:
        fitting = [check for check in best.checks if check.match.fits and in_table(check)]
        said += f" As printed: {_named(fitting, studies) if fitting else 'nothing'}."
    return said


def place_words(place: Place, studies: Sequence[str]) -> str:
    """Return the name of a printed number, as ``Total, lower limit``."""
    if place[0] == "weight":
        return f"{studies[int(place[1])]}, weight"
    name = _NAMES[place[-1]]
    if place[0] == "row":
        return f"{studies[int(place[1])]}, {'effect' if place[-1] == 'estimate' else name}"
    return f"{_LINES.get(place[0], place[1])}, {name}"


def match_words(check: Check) -> str:
    """Say how a printed number sits; within rounding, between what ends it may lie."""
    return _MATCHES[check.match]


def found_words(check: Check) -> str:
    """Write what a variant gives, two decimals beyond print; or the ends the rows allow."""
    if check.found is None:
        return "-"
    if check.match is Match.ROUNDING and check.low is not None and check.high is not None:
        return f"{_number(check, check.low)} to {_number(check, check.high)}"
    return _number(check, check.found)


def rows_sentence(checks: Sequence[Check]) -> str:
    """Say how the printed weights and study effects sit, all together."""
    parts = []
    for place, names in (("weight", ("weight", "weights")), ("row", ("number", "numbers"))):
        of = [check for check in checks if check.item.place[0] == place]
        if not of:
            continue
        fitting = sum(check.match.fits for check in of)
        what = "printed study " if place == "row" else "printed "
        said = f"{fitting} of {len(of)} {what}{names[len(of) != 1]} as printed"
        rounded = sum(check.match is Match.ROUNDING for check in of)
        if rounded:
            said += f" ({rounded} within the rounding of the rows)"
        parts.append(said)
    return f"{'; '.join(parts)}." if parts else ""


def tried_sentence(found: Reproduction) -> str:
    """Say what was tried on what."""
    rows = counted(len(found.checked.pooling.rows), "row", "rows")
    tried = counted(found.tried, "variant", "variants")
    return f"{found.rows.measure.value.capitalize()}, {rows} of {found.rows.kind}; {tried} tried."


def in_table(check: Check) -> bool:
    """Whether a number has a line of its own: weights and study effects only where they fail."""
    return check.item.place[0] not in ROW_PLACES or not check.match.fits


def _number(check: Check, value: float) -> str:
    number = check.item.number
    if number.mark:
        return f"{value:.2g}"
    decimals = len(number.text.rstrip("%").replace(",", ".").replace("·", ".").partition(".")[2])
    whole = check.item.place[-1] == "df"
    return f"{value:.{0 if whole else decimals + 2}f}{'%' if number.percent else ''}"


def _named(checks: Sequence[Check], studies: Sequence[str]) -> str:
    names = [place_words(check.item.place, studies) for check in checks[:_NAMED]]
    rest = len(checks) - len(names)
    return "; ".join(names) + (f"; and {rest} more" if rest else "")
