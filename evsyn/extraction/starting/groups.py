"""Groups of patients and their counts, as written on a command line."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from evsyn.extraction.plan import Plan
from evsyn.extraction.schema.plan_words import denominators, levels, strata, windows
from evsyn.extraction.starting import answers

_BETWEEN = "(?: *, *| +)"
_COUNT = re.compile(
    rf"(?P<count>[0-9]+ ?/ ?[0-9]+){_BETWEEN}(?P<of>[^\s,]+)"
    rf"(?:{_BETWEEN}(?!at |printed |unknown )(?P<window>[^\s,]+))?"
    rf"(?:{_BETWEEN}unknown +(?P<unknown>[0-9]+))?"
    rf"(?:{_BETWEEN}at +(?P<at>.+?))?(?:{_BETWEEN}printed +(?P<printed>\S+))?"
)


@dataclass(frozen=True, slots=True)
class Placed:
    """Something said of one group, or of every group where ``group`` is empty."""

    group: str
    name: str
    value: Any


def placed(written: str) -> tuple[str, str, str]:
    """Return group, name and words of ``[GROUP.]NAME=WORDS``."""
    left, words = answers.pair(written)
    group, dot, key = left.rpartition(".")
    return (group, key, words) if dot else ("", left, words)


def level(written: str, plan: Plan) -> Placed:
    """Return the level of a stratum, from ``[GROUP.]STRATUM=LEVEL``."""
    group, key, words = placed(written)
    key = answers.among(list(strata(plan)))(key)
    return Placed(group, key, answers.among(levels(strata(plan)[key]))(words))


def count(written: str, plan: Plan, *, of_paper: bool) -> Placed:
    """Return a count, from ``[GROUP.]OUTCOME=4/52 attempted 30_days at Table 2 printed 7.7%``.

    Parameters
    ----------
    written : str
        Events and total, denominator, and what follows of: window, ``unknown`` and how many (of a
        unit), ``at`` and the place in the paper, ``printed`` and the percentage.
    plan : Plan
        The plan whose words it uses.
    of_paper : bool
        Whether it was read in a paper, and is not a unit's own.

    Raises
    ------
    ValueError
        If it cannot be right; the message says why.
    """
    group, key, words = placed(written)
    key = answers.among({name: one.label for name, one in plan.outcomes.items()})(key)
    match = _COUNT.fullmatch(words)
    if match is None:
        raise ValueError(f"'{words}' has not the form '4/52 attempted 30_days'")
    events, total = answers.events_of_total()(match["count"])
    bases = denominators(plan, printed=of_paper)
    made: dict[str, Any] = {
        "events": events,
        "total": total,
        "of": answers.among(bases)(match["of"]),
    }
    if match["window"]:
        made["window"] = answers.among(windows(plan))(match["window"])
    allowed = ("at", "printed") if of_paper else ("unknown",)
    for part in ("unknown", "at", "printed"):
        if match[part] and part not in allowed:
            raise ValueError(f"'{part}' has no place in this kind of file")
    if match["unknown"]:
        made["unknown"] = answers.number(0, total - events)(match["unknown"])
    if match["at"]:
        made["at"] = match["at"]
    if match["printed"]:
        made["printed"] = answers.percentage(match["printed"])
    return Placed(group, key, made)


def of_group(found: Sequence[Placed], group: str) -> dict[str, Any]:
    """Return what is said of one group, by name; what names the group goes before the rest."""
    general = {one.name: one.value for one in found if not one.group}
    return general | {one.name: one.value for one in found if one.group == group}
