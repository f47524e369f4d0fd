"""The words of the performance funnel, and of one around a fixed target."""

from collections.abc import Sequence
from dataclasses import dataclass

from evsyn.audit.funnel import AgainstTarget, FixedTarget
from evsyn.audit.overdispersion import Overdispersion
from evsyn.terms import Better
from evsyn.wording.audit_verdict import FAVOURABLE, UNFAVOURABLE
from evsyn.wording.numbers import count, counted, percent
from evsyn.wording.page import PageWords
from evsyn.wording.strip import WITHHELD, between

NOT_OF_STUDIES = "This is not the funnel plot of small studies."

SEVERAL = "A count told as one of several is flagged only where every one of them would be."

_NO_LINES = "No alert or alarm line is drawn: a hidden count cannot be set against one."
_STEPPED = "With one unit the lines are stepped, half way to the first count that would be flagged."
_SMOOTH = (
    "With several units the lines are smooth exact limits; the upper ones run up to one count "
    "below the first that is flagged."
)
_PROMPT = "Each is a prompt to look, and no judgement."
_FLAGS = (
    "A flag comes from the exact chance of the count itself or one further out, never from a line."
)
_CASE_MIX = "Case mix is not allowed for."


@dataclass(frozen=True, slots=True)
class FunnelWords(PageWords):
    """Axes and legend of the performance funnel; each can be replaced."""

    across: str = "cases of the unit"
    up: str = "share of cases (%)"
    fewer: str = "fewer is better"
    more: str = "more is better"
    axis_starts: str = "axis starts at {start}%, not at 0"
    alert: str = "alert"
    alarm: str = "alarm"
    target: str = "target"
    target_key: str = "target fixed in the plan"
    alert_key: str = "alert line, {level}"
    alarm_key: str = "alarm line, {level}"
    widened_key: str = "the same, widened for the spread between units"
    unit: str = "a unit"
    alerted: str = "a unit with an alert"
    alarmed: str = "a unit with an alarm"
    listed: str = "Units by number: on the next page."
    alone: str = "this unit"
    bracket: str = "its count is one of these"
    band: str = "range ordinary new units show"
    unjudged: str = "range from too few studies: unreliable, no verdict"
    typical: str = "typical rate"
    mean: str = "mean rate"
    beyond: str = "a unit outside the range"
    invented_studies: str = "INVENTED YARDSTICK: nothing here tells where a real unit stands"
    invented_unit: str = "INVENTED UNITS, marked so; what they are set against is not invented"


def invented_name(label: str) -> str:
    """Mark a unit as invented among others that are not."""
    return f"invented: {label}"


def periods_sentence(label: str, periods: Sequence[tuple[str, str]]) -> str:
    """Name a unit and its periods, which the labels of the marks give by their years.

    Examples
    --------
    >>> periods_sentence("Hollowmere", [("2022-04", "2026-03"), ("2018-04", "2022-03")])
    'Hollowmere, 2022-04 to 2026-03 and 2018-04 to 2022-03.'
    """
    told = [f"{start} to {end}" for start, end in periods]
    return f"{label}, {', '.join(told[:-1])} and {told[-1]}."


def funnel_title(label: str, group: str) -> str:
    """Return the title, which never lets the figure pass for a plot of studies.

    Examples
    --------
    >>> funnel_title("Perforation", "palliation")
    'Performance funnel: perforation, palliation'
    """
    said = f"{label[:1].lower()}{label[1:]}"
    return f"Performance funnel: {said}{f', {group}' if group else ''}"


def point_words(possible: Sequence[int], total: int | None) -> str:
    """Say a unit's count as far as it is told.

    Examples
    --------
    >>> point_words((3,), 41), point_words((8, 9, 10), 40), point_words((), 40)
    ('3 of 41', 'between 8 and 10 of 40', 'own count withheld')
    """
    if not possible or total is None:
        return WITHHELD
    return count(possible[0], total) if len(possible) == 1 else between(possible, total)


def flag_words(found: AgainstTarget) -> str:
    """Name a flag and its side; empty without one."""
    if found.is_above is None:
        return ""
    return f"{found.flag}, {'above' if found.is_above else 'below'}"


def flag_sentence(found: AgainstTarget, better: Better, *, is_exact: bool) -> str:
    """Say what a flag rests on, and what to do; empty without one.

    Parameters
    ----------
    found : AgainstTarget
        The count against its target.
    better : Better
        Whether fewer or more events are welcome.
    is_exact : bool
        Whether the count is told as it is; if not, neither is its chance.
    """
    if found.is_above is None:
        return ""
    tail = found.tail_at_least if found.is_above else found.tail_at_most
    way = "more" if found.is_above else "fewer"
    is_unwelcome = found.is_above is (better is Better.FEWER)
    what = UNFAVOURABLE if is_unwelcome else FAVOURABLE
    if not is_exact:
        return f"{flag_words(found)}; {what}"
    return f"{flag_words(found)}: as many or {way} have a chance of {percent(tail)}; {what}"


def level_words(level: float) -> str:
    """Write a level of a line, as ``99.8%``."""
    return f"{round(100 * level, 6):g}%"


def target_subtitle(rate: float, according_to: str, decided_on: str) -> str:
    """Say around what the funnel is drawn."""
    return f"Around the target of {percent(rate)}, set by {according_to}, on {decided_on}."


def hidden_sentence(possible: Sequence[int], total: int) -> str:
    """Say what a bracket is, and what it is not.

    Examples
    --------
    >>> hidden_sentence((1, 2, 3), 37)  # doctest: +ELLIPSIS
    'Hidden by rule: this bracket is the same for every unit with between 1 and 3 of 37. It is no...
    """
    return (
        "Hidden by rule: this bracket is the same for every unit with "
        f"{between(possible, total)}. It is no estimate."
    )


def bare_caption(target: FixedTarget, *, is_flagged: bool) -> str:
    """Say why no line is drawn, and what a flag is where there is one all the same."""
    levels = (
        f"Flagged is what would be so at each of its counts: at {level_words(target.alert)} "
        f"(alert) or {level_words(target.alarm)} (alarm), two-sided, around the target taken as "
        f"fixed. {_PROMPT}"
    )
    parts = [_NO_LINES, levels if is_flagged else "", _CASE_MIX, NOT_OF_STUDIES]
    return " ".join(part for part in parts if part)


def short_bare_caption() -> str:
    """Say the same on a slide."""
    return f"{_NO_LINES} {NOT_OF_STUDIES}"


def target_caption(target: FixedTarget, units: int, found: Overdispersion | None) -> str:
    """Say what the lines are, what a flag is, and whether units differ by more than chance."""
    levels = (
        f"Lines at {level_words(target.alert)} (alert) and {level_words(target.alarm)} (alarm), "
        "two-sided, around the target taken as fixed."
    )
    shape = _STEPPED if units == 1 else _SMOOTH
    parts = [levels, shape, _FLAGS, _PROMPT, overdispersion_sentence(found), _CASE_MIX]
    return " ".join(part for part in [*parts, NOT_OF_STUDIES] if part)


def short_target_caption(target: FixedTarget, units: int, found: Overdispersion | None) -> str:
    """Say the same on a slide."""
    lines = "stepped lines" if units == 1 else "smooth lines"
    spread = ""
    if found is not None and found.is_triggered:
        spread = " Units differ by more than chance allows (dashed lines: widened)."
    return (
        f"Flags by exact tails, not by the {lines}; each a prompt to look.{spread} {NOT_OF_STUDIES}"
    )


def overdispersion_sentence(found: Overdispersion | None) -> str:
    """Say whether the units differ by more than chance allows; empty below ten units."""
    if found is None:
        return ""
    measured = (
        f"phi {found.phi:.2f}, acted on above {found.trigger:.2f}; with the extremes drawn in "
        f"{found.phi_drawn_in:.2f}"
    )
    units = counted(found.units, "unit", "units")
    if not found.is_triggered:
        return f"The {units} differ no more around the target than chance allows ({measured})."
    return (
        f"The {units} differ by more than chance allows ({measured}): a spread of "
        f"{100 * found.tau:.1f} percentage points is added in the dashed lines, while flags stay "
        "those of the target alone, so some may be no more than ordinary differences."
    )


def nothing_below(alert_from: int, alarm_from: int) -> str:
    """Say up to how many cases no result can fall below the lines."""
    return _no_result(alert_from, alarm_from, "fall below")


def nothing_above(alert_from: int, alarm_from: int) -> str:
    """Say up to how many cases no result can lie above the lines."""
    return _no_result(alert_from, alarm_from, "lie above")


def _no_result(alert_from: int, alarm_from: int, way: str) -> str:
    return (
        f"Fewer than {alert_from:,} cases: no result can {way} the alert line; fewer than "
        f"{alarm_from:,}: none can {way} the alarm line."
    )


def flagged_from(total: int, low: tuple[int, int], high: tuple[int, int], *, better: Better) -> str:
    """Say at which counts one unit would be flagged.

    Parameters
    ----------
    total : int
        Its cases.
    low, high : tuple of int
        For alert and alarm: largest count flagged below, smallest flagged above, as
        :func:`evsyn.audit.funnel.flagged_counts` returns them.
    better : Better
        Which side is named first: the unwelcome one.
    """
    names = ("alert", "alarm")
    above = [f"{name} from {x:,}" for name, x in zip(names, high, strict=True) if x <= total]
    below = [f"{name} up to {x:,}" for name, x in zip(names, low, strict=True) if x >= 0]
    sides = [f"above: {', '.join(above) or 'none possible'}"]
    sides.append(f"below: {', '.join(below) or 'none possible'}")
    if better is Better.MORE:
        sides.reverse()
    return f"With {counted(total, 'case', 'cases')}, {'; '.join(sides)}."


def withheld_sentence(names: Sequence[str]) -> str:
    """Name the units whose counts are withheld; empty where none is."""
    return f"Not drawn: {'; '.join(f'{name} ({WITHHELD})' for name in names)}." if names else ""


def window_sentence(names: Sequence[str], window: str) -> str:
    """Name the units that looked for another time than the outcome's own window."""
    if not names:
        return ""
    return f"Not counted {window}, as the target is taken to be: {'; '.join(names)}."


def no_unit_counts(basis: str) -> str:
    """Say that no unit counts over the denominator of the target."""
    return f"No unit here gives a share of {basis}, as the target is taken to be."
