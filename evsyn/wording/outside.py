"""What an audit says outside the unit: nothing that gives back a hidden count."""

from evsyn.audit.outside import OutsideCount
from evsyn.audit.release import LARGEST_HIDDEN, Told, rounded
from evsyn.extraction.plan import Plan
from evsyn.extraction.unit import Unit
from evsyn.terms import NOT_STATED
from evsyn.wording.numbers import count, counted, percent, span
from evsyn.wording.verdict import VERDICT_WORDS

NO_VERDICT = (
    "The verdict is withheld by rule, since it would narrow the count; it is withheld alike from "
    "welcome and unwelcome results."
)

NO_FIGURE = "Neither share nor place is given, since they would narrow it."


def head_sentence(unit: Unit, years: float) -> str:
    """Name the unit and the length of its period, without a date."""
    whole = max(1, round(years))
    return f"{unit.label}, figures of {counted(whole, 'year', 'years')}."


def cases_sentence(counted_cases: int, expected: int, population: str) -> str:
    """Say about how many cases are counted, and how many fewer than expected.

    The number counted is taken as known, so it is what is missing that is told by the rule for
    counts, and not the number expected: that one would give a few missing cases back.

    Parameters
    ----------
    counted_cases, expected : int
        Cases counted, and cases there should be.
    population : str
        Who is counted, as ``patients``.
    """
    missing = "as many as were expected, or more"
    if expected > counted_cases:
        missing = f"{_about(expected - counted_cases)} fewer than were expected"
    return (
        f"{counted_cases:,} {population} are counted, {missing}; what is left out, and why, is "
        "told inside the unit."
    )


def _about(number: int) -> str:
    told = rounded(number)
    return f"1 to {LARGEST_HIDDEN}" if told is None else f"about {told:,}"


def outside_sentences(item: OutsideCount, plan: Plan) -> tuple[str, ...]:
    """Say what may be told of one whole count.

    Parameters
    ----------
    item : OutsideCount
        The count as it may be told.
    plan : Plan
        The plan, for its words.
    """
    said = [f"{plan.outcomes[item.outcome].label}, all cases: {_count_words(item, plan)}"]
    if item.interval is not None:
        limits = span(item.interval.low, item.interval.high)
        said.append(
            f"The data are compatible with a true rate from {limits} (exact two-sided 95%)."
        )
    if item.one_sided is not None:
        way = "up" if item.count.shown == 0 else "down"
        said.append(f"Rates {way} to {percent(item.one_sided)} remain possible (one-sided 95%).")
    said.append(_verdict_words(item))
    return tuple(sentence for sentence in said if sentence)


def told_words(item: OutsideCount) -> str:
    """Write a count as it may be told, for a table."""
    told, total = item.count, item.count.total
    if told.told is Told.WITHHELD:
        return "withheld"
    if told.told is Told.HIDDEN:
        return f"{told.possible[0]:,} to {told.possible[-1]:,} of {total:,}"
    if told.told is Told.ROUNDED:
        return f"about {count(told.shown or 0, total)}"
    return count(told.shown or 0, total)


def _count_words(item: OutsideCount, plan: Plan) -> str:
    if item.count.told is Told.WITHHELD:
        return (
            "withheld by rule: it is a share of few cases, or of cases that are themselves a "
            "count, as stents placed are."
        )
    basis = plan.denominators.get(item.basis, item.basis)
    when = ""
    if item.window != NOT_STATED and item.window in plan.windows:
        when = f", {plan.windows[item.window].label}"
    if item.followed_months is not None:
        when += f" (median {item.followed_months:g} months)"
    said = f"{_between(item)} of {item.count.total:,} {basis}{when}"
    if not item.is_complete:
        said += ", not every outcome being known"
    if item.count.told is Told.HIDDEN:
        return f"{said}; the count itself is hidden{_widened(item)}. {NO_FIGURE}"
    if item.count.told is Told.ROUNDED:
        return f"{said}, rounded to 5. {NO_FIGURE}"
    return f"{said}."


def _widened(item: OutsideCount) -> str:
    """Say where more than the small counts are hidden together; empty where that is not so."""
    told = item.count
    few = told.possible == tuple(range(1, LARGEST_HIDDEN + 1))
    nearly_all = told.possible == tuple(range(told.total - LARGEST_HIDDEN, told.total))
    return "" if few or nearly_all else ", and its limits widened so that rounding tells nothing"


def _between(item: OutsideCount) -> str:
    told = item.count
    if told.told is Told.HIDDEN:
        return f"between {told.possible[0]:,} and {told.possible[-1]:,}"
    if told.told is Told.ROUNDED:
        return f"about {told.shown:,}"
    if told.shown == 0:
        return "none"
    return f"all {told.shown:,}" if told.shown == told.total else f"{told.shown:,}"


def _verdict_words(item: OutsideCount) -> str:
    reach = item.limits
    if reach is None or item.count.told is Told.WITHHELD:
        return ""
    size = (
        f"ordinary new units with these cases and this case mix show {reach.low:,} to "
        f"{reach.high:,} of {item.count.total:,}"
    )
    if item.verdict is None:
        return f"For comparison, {size}. {NO_VERDICT}"
    words = VERDICT_WORDS[item.verdict]
    if item.count.is_exact:
        return f"This is {words}: {size}."
    return f"Whichever of these counts it is, it is {words}: {size}."


def outside_verdict(item: OutsideCount) -> str:
    """Write the verdict for a table; one that is not told says so."""
    if item.count.told is Told.WITHHELD:
        return "withheld"
    if item.limits is None:
        return "no comparison"
    return "withheld" if item.verdict is None else VERDICT_WORDS[item.verdict]
