"""Chances of a count in words: how many units would see it, and which counts would be called so."""

from evsyn.audit.power import Notice
from evsyn.audit.verdict import Limits, Tails, Verdict
from evsyn.terms import Better
from evsyn.wording.numbers import frequency, percent

_NEARLY_ALL = "nearly all"


def beyond_words(number: int, way: str, last: int) -> str:
    """Write a count with those beyond it, as ``8 or more``; alone where it is the last.

    Examples
    --------
    >>> beyond_words(8, "more", 40), beyond_words(0, "fewer", 0)
    ('8 or more', '0')
    """
    return f"{number:,}" if number == last else f"{number:,} or {way}"


def tail_words(events: int, total: int, *, is_high: bool) -> str:
    """Name the inclusive tail on one side of a count.

    Examples
    --------
    >>> tail_words(8, 40, is_high=True), tail_words(3, 40, is_high=False)
    ('8 or more of 40', '3 or fewer of 40')
    """
    way, last = ("more", total) if is_high else ("fewer", 0)
    return f"{beyond_words(events, way, last)} of {total:,}"


def how_many(tails: Tails, unit: str, *, is_high: bool) -> str:
    """Write the chance of that tail as units, as ``about 1 unit in 13``."""
    return units_words(tails.tail_at_least if is_high else tails.tail_at_most, unit)


def units_words(chance: float, unit: str) -> str:
    """Write a chance as units.

    Examples
    --------
    >>> units_words(0.0791, "unit"), units_words(0.27, "ordinary unit")
    ('about 1 unit in 13', 'about 3 in 10 ordinary units')
    """
    said = frequency(chance)
    if said.startswith("1 in "):
        return f"about 1 {unit} in {said.removeprefix('1 in ')}"
    if said.startswith("fewer than 1 in "):
        return f"fewer than 1 {unit} in {said.removeprefix('fewer than 1 in ')}"
    return f"{said} {unit}s" if said == _NEARLY_ALL else f"about {said} {unit}s"


def range_words(limits: Limits) -> str:
    """Write the range of counts, as ``0 to 10``."""
    same = limits.low == limits.high
    return f"{limits.low:,} only" if same else f"{limits.low:,} to {limits.high:,}"


def called_words(limits: Limits, told: Verdict, total: int, units: str = "ordinary units") -> str:
    """Say which counts are called more and which fewer; the side of the verdict comes first.

    Parameters
    ----------
    limits : Limits
        The counts at which a verdict is given.
    told : Verdict
        The verdict.
    total : int
        Cases.
    units : str
        Whom the chances are of.
    """
    more = "no count could be called more"
    if limits.first_more is not None:
        reach = beyond_words(limits.first_more, "more", total)
        often = f"({percent(limits.chance_more)} of {units})"
        more = _called(reach, "more", often, is_told=told is Verdict.MORE)
    fewer = "no count could be called fewer"
    if limits.last_fewer is not None:
        reach = beyond_words(limits.last_fewer, "fewer", 0)
        often = f"({percent(limits.chance_fewer)} of {units})"
        fewer = _called(reach, "fewer", often, is_told=told is Verdict.FEWER)
    first, second = (fewer, more) if told is Verdict.FEWER else (more, fewer)
    return f"{first} and {second}"


def _called(reach: str, way: str, often: str, *, is_told: bool) -> str:
    if is_told:
        return f"{'any count of ' if ' or ' in reach else 'only '}{reach} is called so {often}"
    return f"only {reach} would be called {way} {often}"


def noticed_words(
    notice: Notice,
    limits: Limits,
    better: Better,
    because: str = "ordinary units already differ by more than that",
) -> str:
    """Give the chance of noticing a raised risk, with the reason where it is small.

    Parameters
    ----------
    notice : Notice
        The chance.
    limits : Limits
        The counts at which a verdict is given.
    better : Better
        Whether fewer or more events are welcome.
    because : str
        The reason where it is not that the cases are few.
    """
    is_fewer = better is Better.FEWER
    if (limits.first_more if is_fewer else limits.last_fewer) is None:
        return "could not be noticed"
    said = f"would be noticed with a chance of {percent(notice.notice)}"
    if notice.is_ordinary(limits.chance_more if is_fewer else limits.chance_fewer):
        return f"{said}, because {because}"
    return f"{said}, because the cases are so few" if notice.is_small else said


def place_words(tails: Tails, units: str) -> str:
    """Say in words how many units of a kind would see fewer, as many and more.

    Parameters
    ----------
    tails : Tails
        Chances of the count.
    units : str
        Which units, in the plural, as ``ordinary new units of this size``.
    """
    below, same, above = map(_of_all, in_hundred(tails.below, tails.same, tails.above))
    if below == "none":
        one = units.replace("units", "unit", 1)
        return (
            f"No {one} could see fewer; of 100, {_about(same)} would see as many and {above} more"
        )
    return f"Of 100 {units}, {_about(below)} would see fewer, {same} as many and {above} more"


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
