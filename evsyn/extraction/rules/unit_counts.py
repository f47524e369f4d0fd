"""One count of a unit must be possible by itself."""

from collections.abc import Iterator

from evsyn.extraction.plan import Plan
from evsyn.extraction.rules.rule import UnitRule
from evsyn.extraction.unit import Group, Unit, UnitCount
from evsyn.terms import CountedBy, Finding, Severity, Source

NAME = "unit-counts"


def check(unit: Unit, _: Plan) -> Iterator[Finding]:
    """Yield a fault for events above their total, and for a total above its group."""
    for group in unit.groups:
        for count in group.outcomes.values():
            yield from _of_total(count)
            yield from _of_group(count, group, unit)


def _of_total(count: UnitCount) -> Iterator[Finding]:
    if count.events > count.total:
        message = f"{count.events} events of {count.total} cannot be"
        yield _fault(count.source(), message, "Compare both with the register.")
    elif count.events + count.unknown > count.total:
        message = f"{count.events} events and {count.unknown} unknown of {count.total} cannot be"
        cure = "'unknown' are part of the total: correct one of the three."
        yield _fault(count.source("unknown"), message, cure)


def _of_group(count: UnitCount, group: Group, unit: Unit) -> Iterator[Finding]:
    if unit.counted_by is CountedBy.PATIENT and count.total > group.patients:
        message = f"a total of {count.total} in a group of {group.patients} patients"
        yield _fault(count.source("total"), message, "Correct one of the two.")


def _fault(source: Source, message: str, cure: str) -> Finding:
    return Finding(NAME, Severity.FAULT, source, message, cure)


RULE = UnitRule(
    NAME,
    Severity.FAULT,
    "Events, with the unknown outcomes, within their total, and totals within their group: a "
    "count that cannot be is sent back before anything is compared.",
    check,
)
