"""The verdict on a unit's count, its place, and the average, in words."""

from collections.abc import Sequence

from evsyn.audit.comparable import Differs
from evsyn.audit.comparison import AtSpread, Comparison
from evsyn.audit.power import Notice
from evsyn.audit.reasons import Reason
from evsyn.audit.standing import Standing
from evsyn.audit.verdict import Verdict
from evsyn.terms import Better
from evsyn.wording.chances import (
    called_words,
    how_many,
    noticed_words,
    place_words,
    range_words,
    tail_words,
)
from evsyn.wording.numbers import count, counted, percent, spread

UNFAVOURABLE = "look at the cases"
FAVOURABLE = "check ascertainment and denominator first"

ORDINARY_MEANS = (
    "An ordinary new unit is one that differs from the studies as they differ from each other; the "
    "range leaves at most 2.5% of ordinary units beyond either end."
)

SIDE = {
    Verdict.MORE: "more than",
    Verdict.FEWER: "fewer than",
    Verdict.WITHIN: "within",
}

#: No number of years beyond this is printed.
LONGEST = 100


def verdict_sentence(standing: Standing, comparison: Comparison) -> str:
    """Give the verdict and, in the same sentence, what these numbers could not have shown."""
    limits, is_high = comparison.limits, comparison.is_high
    seen = count(standing.events, standing.total)
    span = range_words(limits)
    size = f"ordinary new units with {_cases(standing)} show"
    tail = f"{_tail(standing, is_high)}: "
    tail += how_many(comparison.ordinary, "ordinary new unit", is_high=is_high) + marks(
        standing.differs
    )
    if comparison.verdict is Verdict.NONE:
        withheld = withheld_words(standing.reason)
        return f"{withheld} {seen} beside the range of {span} that {size} ({tail})."
    said = f"{seen} is {SIDE[comparison.verdict]} the range of {span} that {size} ({tail})"
    return f"{said}; {action_words(comparison.is_unfavourable)}{could_show(standing, comparison)}."


def withheld_words(reason: Reason | None) -> str:
    """Say why there is no verdict, as the beginning of a sentence."""
    if reason is Reason.FEW_STUDIES:
        return "No verdict, since so few studies cannot tell how far units differ; unreliable:"
    if reason is Reason.NO_SPREAD:
        return "No verdict, since how far units differ could not be estimated:"
    if reason is Reason.TOO_FEW_CASES:
        return "No verdict, since so few cases allow no verdict either way:"
    return "No verdict, since the windows differ and could explain what is seen:"


def action_words(is_unfavourable: bool | None) -> str:
    """Say what to do about a verdict, before what could not have been shown."""
    if is_unfavourable is None:
        return "but "
    return f"{UNFAVOURABLE if is_unfavourable else FAVOURABLE}; "


def _cases(standing: Standing) -> str:
    return counted(standing.total, "case", "cases")


def could_show(standing: Standing, comparison: Comparison) -> str:
    """Say which counts are called more or fewer, and how well a doubled risk is noticed."""
    limits, power = comparison.limits, comparison.power
    called = called_words(limits, comparison.verdict, standing.total)
    said = f"with {_cases(standing)} {called}"
    if power is None:
        return f"{said}, and the typical risk is too high to be doubled"
    noticed = noticed_words(power, limits, standing.better)
    return f"{said}, and {risk_words(power, standing.better)} {noticed}"


def risk_words(power: Notice, better: Better) -> str:
    """Name a unit at twice the typical unfavourable risk."""
    if power.doubled < 2 * power.typical:
        return f"a unit where {percent(power.doubled)} of cases go the unwelcome way"
    if better is Better.FEWER:
        return f"a unit at twice the typical risk ({percent(power.doubled)})"
    return f"a unit that falls short twice as often as is typical ({percent(power.doubled)})"


def position_sentence(comparison: Comparison, events: str) -> str:
    """Say in words how many ordinary units would see fewer, as many and more.

    Parameters
    ----------
    comparison : Comparison
        The comparison.
    events : str
        The outcome in the plural, as ``perforations``.
    """
    said = place_words(comparison.ordinary, "ordinary new units of this size")
    return f"{said}; their average is {comparison.expected_count:.1f} {events}."


def average_sentence(standing: Standing, comparison: Comparison) -> str:
    """Say how the count compares if every unit shared the typical rate, and with what power."""
    said = (
        "Against the average: if every unit shared the typical rate, "
        f"{_tail(standing, comparison.is_high)} would be seen in "
        f"{how_many(comparison.average, 'unit', is_high=comparison.is_high)}"
    )
    power = comparison.power
    if power is None:
        return f"{said}."
    who = risk_words(power, standing.better)
    cases = counted(power.cases_needed, "case", "cases")
    notice = "notices" if standing.total == 1 else "notice"
    if power.cases_needed <= standing.total:
        more = f"a chance of 80% is held from {cases}, which this unit has"
    else:
        about = "" if power.is_exact else " (by a formula)"
        years = _years(power.years_needed)
        more = f"for 80% to hold it takes {cases}{about}, {years} at this unit's rate"
    return (
        f"{said}; against that average, by a one-sided 5% test, {_cases(standing)} {notice} {who} "
        f"with a chance of {percent(power.notice_average)}, and {more}."
    )


def _years(years: float) -> str:
    if years < 1:
        return "less than a year"
    if years > LONGEST:
        return f"more than {LONGEST} years"
    return f"about {years:,.1f} years" if years < 3 else f"about {years:,.0f} years"


def _tail(standing: Standing, is_high: bool) -> str:
    return tail_words(standing.events, standing.total, is_high=is_high)


def marks(differs: Sequence[Differs]) -> str:
    """Mark a verdict that rests on unlike windows or denominators."""
    named = {"windows differ": Differs.WINDOWS, "denominators differ": Differs.BASES_MIXED}
    return "".join(f"; {words}" for words, item in named.items() if item in differs)


def sensitivity_sentence(standing: Standing, comparison: Comparison) -> str:
    """Say how the tail and the verdict move with the spread; empty where that is not known."""
    low, high = comparison.at_low, comparison.at_high
    if low is None or high is None:
        return ""
    is_high = comparison.is_high
    said = (
        f"At the smallest and the largest spread the studies allow ({spread(low.tau)} and "
        f"{spread(high.tau)}), the chance of {_tail(standing, is_high)} is "
        f"{_chance(low, is_high)} and {_chance(high, is_high)}"
    )
    if not comparison.judged:
        return f"{said}."
    moved = [
        f"at the {name} the count would be {_told(at)}"
        for name, at in (("smallest", low), ("largest", high))
        if at.verdict is not comparison.verdict
    ]
    if not moved:
        return f"{said}; the verdict is the same at both."
    return f"{said}; {' and '.join(moved)}, and the verdict stays the one above."


def _told(at: AtSpread) -> str:
    if at.verdict is Verdict.NONE:
        return "outside the range on the side that is not judged"
    return f"{SIDE[at.verdict]} the range"


def _chance(at: AtSpread, is_high: bool) -> str:
    return percent(at.tails.tail_at_least if is_high else at.tails.tail_at_most)
