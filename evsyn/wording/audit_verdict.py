"""The verdict on a unit's count, its place, and the average, in words."""

from evsyn.audit.comparable import Differs
from evsyn.audit.comparison import AtSpread, Comparison
from evsyn.audit.power import Power
from evsyn.audit.reasons import Reason
from evsyn.audit.standing import Standing
from evsyn.audit.verdict import Tails, Verdict
from evsyn.terms import Better
from evsyn.wording.numbers import count, counted, frequency, percent, spread

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

_NEARLY_ALL = "nearly all"


def verdict_sentence(standing: Standing, comparison: Comparison) -> str:
    """Give the verdict and, in the same sentence, what these numbers could not have shown."""
    limits, is_high = comparison.limits, comparison.is_high
    seen = count(standing.events, standing.total)
    span = f"{limits.low:,} to {limits.high:,}"
    if limits.low == limits.high:
        span = f"{limits.low:,} only"
    size = f"ordinary new units with {_cases(standing)} show"
    tail = f"{_tail(standing, is_high)}: "
    tail += f"{_how_many(comparison.ordinary, is_high, 'ordinary new unit')}{_marks(standing)}"
    if comparison.verdict is Verdict.NONE:
        return f"{_withheld(standing)} {seen} beside the range of {span} that {size} ({tail})."
    said = f"{seen} is {SIDE[comparison.verdict]} the range of {span} that {size} ({tail})"
    return f"{said}; {_action(comparison)}{could_show(standing, comparison)}."


def _withheld(standing: Standing) -> str:
    if standing.reason is Reason.FEW_STUDIES:
        return "No verdict, since so few studies cannot tell how far units differ; unreliable:"
    if standing.reason is Reason.NO_SPREAD:
        return "No verdict, since how far units differ could not be estimated:"
    if standing.reason is Reason.TOO_FEW_CASES:
        return "No verdict, since so few cases allow no verdict either way:"
    return "No verdict, since the windows differ and could explain what is seen:"


def _action(comparison: Comparison) -> str:
    if comparison.is_unfavourable is None:
        return "but "
    return f"{UNFAVOURABLE if comparison.is_unfavourable else FAVOURABLE}; "


def _cases(standing: Standing) -> str:
    return counted(standing.total, "case", "cases")


def could_show(standing: Standing, comparison: Comparison) -> str:
    """Say which counts are called more or fewer, and how well a doubled risk is noticed."""
    limits, power, told = comparison.limits, comparison.power, comparison.verdict
    more = "no count could be called more"
    if limits.first_more is not None:
        reach = _or(limits.first_more, "more", standing.total)
        more = _called(reach, "more", limits.chance_more, is_told=told is Verdict.MORE)
    fewer = "no count could be called fewer"
    if limits.last_fewer is not None:
        reach = _or(limits.last_fewer, "fewer", 0)
        fewer = _called(reach, "fewer", limits.chance_fewer, is_told=told is Verdict.FEWER)
    first, second = (fewer, more) if told is Verdict.FEWER else (more, fewer)
    said = f"with {_cases(standing)} {first} and {second}"
    if power is None:
        return f"{said}, and the typical risk is too high to be doubled"
    return f"{said}, and {risk_words(power, standing.better)} {_noticed(power, standing.better)}"


def _called(reach: str, way: str, chance: float, *, is_told: bool) -> str:
    often = f"({percent(chance)} of ordinary units)"
    if is_told:
        return f"{'any count of ' if ' or ' in reach else 'only '}{reach} is called so {often}"
    return f"only {reach} would be called {way} {often}"


def _noticed(power: Power, better: Better) -> str:
    """Give the chance of noticing a doubled risk, with the reason where it is small."""
    limits = power.limits
    is_fewer = better is Better.FEWER
    if (limits.first_more if is_fewer else limits.last_fewer) is None:
        return "could not be noticed"
    said = f"would be noticed with a chance of {percent(power.notice)}"
    if power.is_ordinary(limits.chance_more if is_fewer else limits.chance_fewer):
        return f"{said}, because ordinary units already differ by more than that"
    return f"{said}, because the cases are so few" if power.is_small else said


def _or(number: int, way: str, last: int) -> str:
    return f"{number:,}" if number == last else f"{number:,} or {way}"


def risk_words(power: Power, better: Better) -> str:
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
    tails = comparison.ordinary
    below, same, above = map(_of_all, in_hundred(tails.below, tails.same, tails.above))
    if below == "none":
        said = (
            "No ordinary new unit of this size could see fewer; of 100, "
            f"{_about(same)} would see as many and {above} more"
        )
    else:
        said = (
            f"Of 100 ordinary new units of this size, {_about(below)} would see fewer, {same} as "
            f"many and {above} more"
        )
    return f"{said}; their average is {comparison.expected_count:.1f} {events}."


def in_hundred(*chances: float) -> tuple[str, ...]:
    """Write chances that sum to 1 as whole numbers that sum to 100.

    Examples
    --------
    >>> in_hundred(0.887, 0.034, 0.079)
    ('89', '3', '8')
    >>> in_hundred(0.0, 0.996, 0.004)
    ('none', 'more than 99', 'fewer than 1')
    """
    scaled = [100 * chance for chance in chances]
    whole = [int(value) for value in scaled]
    by_remainder = sorted(range(len(whole)), key=lambda i: whole[i] - scaled[i])
    for i in by_remainder[: 100 - sum(whole)]:
        whole[i] += 1
    return tuple(_of_hundred(n, chance) for n, chance in zip(whole, chances, strict=True))


def _of_hundred(number: int, chance: float) -> str:
    if chance == 0:
        return "none"
    if number == 0:
        return "fewer than 1"
    return "more than 99" if number == 100 and chance < 1 else str(number)


def _of_all(number: str) -> str:
    """Keep the hundred beside a number that would read as a comparison of counts."""
    return f"{number} in 100" if number.startswith("fewer") else number


def _about(number: str) -> str:
    return f"about {number}" if number.isdigit() else number


def average_sentence(standing: Standing, comparison: Comparison) -> str:
    """Say how the count compares if every unit shared the typical rate, and with what power."""
    said = (
        "Against the average: if every unit shared the typical rate, "
        f"{_tail(standing, comparison.is_high)} would be seen in "
        f"{_how_many(comparison.average, comparison.is_high, 'unit')}"
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
    """Name the inclusive tail on the side of the comparison, as ``8 or more of 40``."""
    way, last = ("more", standing.total) if is_high else ("fewer", 0)
    return f"{_or(standing.events, way, last)} of {standing.total:,}"


def _how_many(tails: Tails, is_high: bool, unit: str) -> str:
    """Write the chance of that tail as units, as ``about 1 unit in 13``."""
    chance = tails.tail_at_least if is_high else tails.tail_at_most
    said = frequency(chance)
    if said.startswith("1 in "):
        return f"about 1 {unit} in {said.removeprefix('1 in ')}"
    if said.startswith("fewer than 1 in "):
        return f"fewer than 1 {unit} in {said.removeprefix('fewer than 1 in ')}"
    return f"{said} {unit}s" if said == _NEARLY_ALL else f"about {said} {unit}s"


def _marks(standing: Standing) -> str:
    """Mark a verdict that rests on unlike windows or denominators."""
    marks = {"windows differ": Differs.WINDOWS, "denominators differ": Differs.BASES_MIXED}
    told = [words for words, item in marks.items() if item in standing.differs]
    return "".join(f"; {words}" for words in told)


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
