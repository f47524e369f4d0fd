"""All lines of a unit's flow must be able to hold of some patients."""

from collections.abc import Iterator

from evsyn.extraction.flow.line import Line
from evsyn.extraction.flow.lines import unit_lines
from evsyn.extraction.plan import Plan
from evsyn.extraction.rules import (
    unit_counts,
    unit_devices,
    unit_ends,
    unit_flow_order,
    unit_flow_words,
    unit_names,
    unit_retreated,
    unit_strata,
    unit_timing,
    unit_zero,
)
from evsyn.extraction.rules.rule import UnitRule
from evsyn.extraction.unit import Unit
from evsyn.terms import CountedBy, Finding, Severity

NAME = "unit-flow-possible"
_FIRST = (
    unit_names, unit_flow_words, unit_counts, unit_timing, unit_flow_order, unit_ends,
    unit_devices, unit_retreated, unit_strata, unit_zero,
)  # fmt: skip


def check(unit: Unit, plan: Plan) -> Iterator[Finding]:
    """Yield a fault that names the fewest lines which cannot all hold.

    Lines are held together once each of the simpler checks passes. A unit counted by procedures or
    devices, or with too many types of patients to search, gets a note instead.
    """
    if not _has_flow(unit, plan) or any(_faults(unit, plan)):
        return
    if unit.counted_by is not CountedBy.PATIENT:
        message = f"the lines were not held together: the file counts by {unit.counted_by}"
        yield _note(unit, message, "Count by patient to have them held together.")
        return
    from evsyn.extraction.flow.clash import smallest_clash
    from evsyn.extraction.flow.reason import reason
    from evsyn.extraction.flow.system import UnsettledError, system_of

    lines = unit_lines(unit, plan)
    try:
        system = system_of(lines, unit, plan)
        clash = smallest_clash(system)
        why = reason(system, lines, clash)
    except UnsettledError:
        message = "the lines were not held together: there are too many kinds of patients to search"
        yield _note(unit, message, "Shorten the longest statements.")
        return
    if clash:
        yield _fault(sorted((lines[n] for n in clash), key=lambda line: line.source.line), why)


def _has_flow(unit: Unit, plan: Plan) -> bool:
    """Whether any line could clash with another that does not sum with it."""
    counted = {name for group in unit.groups for name in group.outcomes}
    told = unit.flow or unit.complications or unit.patients_end or unit.statements
    held = unit.devices is not None or unit.devices_end
    placed = any(plan.outcomes[name].counted_as for name in counted & set(plan.outcomes))
    return bool(told or held or placed)


def _faults(unit: Unit, plan: Plan) -> Iterator[Finding]:
    for module in _FIRST:
        yield from module.RULE.check(unit, plan)


def _fault(lines: list[Line], why: str) -> Finding:
    number = "this line cannot" if len(lines) == 1 else f"these {len(lines)} lines cannot all"
    message = f"{number} hold: {'; '.join(map(str, lines))}"
    cure = f"{why} Compare each with the register; no fewer of the file's lines clash.".strip()
    return Finding(NAME, Severity.FAULT, lines[0].source, message, cure)


def _note(unit: Unit, message: str, cure: str) -> Finding:
    return Finding(NAME, Severity.NOTE, unit.source("flow"), message, cure)


RULE = UnitRule(
    NAME,
    Severity.FAULT,
    "Lines that each sum may still contradict one another. Every patient is of one type (furthest "
    "stage, group, steps, complications, end), so each line is a sum over types; where no whole "
    "numbers of patients satisfy all, the smallest set of lines that clash is named.",
    check,
)
