"""No case stands beside a case that is recorded."""

from collections.abc import Iterator

from evsyn.extraction.flow.attributes import Attributes
from evsyn.extraction.flow.case_lines import case_lines
from evsyn.extraction.flow.group_lines import grouped_stage
from evsyn.extraction.flow.line import Line
from evsyn.extraction.flow.sets import GROUP, Cases
from evsyn.extraction.flow.structure import implied
from evsyn.extraction.flow.window import counted_in
from evsyn.extraction.plan import Plan
from evsyn.extraction.rules import unit_flow_words, unit_names
from evsyn.extraction.rules.rule import UnitRule
from evsyn.extraction.unit import Unit
from evsyn.terms import CountedBy, Finding, Severity

NAME = "unit-zero"


def check(unit: Unit, plan: Plan) -> Iterator[Finding]:
    """Yield a fault where groups count an outcome in none, or in all, and a line says else."""
    if unit.counted_by is not CountedBy.PATIENT:
        return
    if any(unit_names.check(unit, plan)) or any(unit_flow_words.check(unit, plan)):
        return
    attributes = Attributes(plan, len(unit.groups))
    recorded = [(line, cases) for line in case_lines(unit, attributes) for cases in _some(line)]
    known = [(line, implied(cases, unit, attributes)) for line, cases in recorded]
    for outcome in sorted({name for group in unit.groups for name in group.outcomes}):
        for how, empty in _empty(outcome, unit, attributes):
            for line, cases in known:
                if cases.within(empty):
                    message = f"{outcome} is counted in {how}, against: {line}"
                    cure = "Find the case in its group, or correct the line."
                    yield Finding(NAME, Severity.FAULT, line.source, message, cure)


def _some(line: Line) -> Iterator[Cases]:
    """Yield the sets in which a line puts at least one case."""
    for limit in line.limits:
        if (limit.low or 0) > 0:
            yield from (cases for _, cases in limit.cases)


def _empty(outcome: str, unit: Unit, attributes: Attributes) -> Iterator[tuple[str, Cases]]:
    """Yield the sets in which an outcome's counts leave no case: 'none' had it, or 'all'."""
    plan = attributes.plan
    found: dict[tuple[str, str, str], set[str]] = {}
    for number, group in enumerate(unit.groups):
        count = group.outcomes.get(outcome)
        if count is None or count.of not in plan.flow:
            continue
        for how, extreme in (
            ("none", count.events + count.unknown == 0),
            ("all", count.events == count.total),
        ):
            if extreme:
                found.setdefault((how, count.of, count.window), set()).add(str(number))
    for (how, stage, window), groups in found.items():
        counted = counted_in(outcome, window, attributes)
        if counted is None:
            continue
        without = counted.surely if how == "none" else attributes.opposite(counted.at_most)
        empty = without & attributes.reached(stage)
        if len(groups) < len(unit.groups) or grouped_stage(unit, plan) is None:
            empty &= Cases.where(GROUP, groups)
        yield how, empty


RULE = UnitRule(
    NAME,
    Severity.FAULT,
    "Nought per cent, or a hundred, beside a case that is listed otherwise or of which a statement "
    "speaks: one of the two was counted before the other.",
    check,
)
