"""A unit's own figures must hold together."""

from collections.abc import Iterator
from itertools import pairwise

from evsyn.extraction.plan import Plan
from evsyn.extraction.rules.rule import UnitRule
from evsyn.extraction.unit import Unit
from evsyn.terms import CountedBy, Finding, Severity, Source

NAME = "unit-sums"


def check(unit: Unit, plan: Plan) -> Iterator[Finding]:
    """Yield a fault for each sum or order that cannot be."""
    for group in unit.groups:
        for count in group.outcomes.values():
            if count.events > count.total:
                message = f"{count.events} events of {count.total} cannot be"
                yield _fault(count.source(), message, "Compare both with the register.")
            if unit.counted_by is CountedBy.PATIENT and count.total > group.patients:
                message = f"a total of {count.total} in a group of {group.patients} patients"
                yield _fault(count.source("total"), message, "Correct one of the two.")
    staged = [(stage, unit.flow[stage]) for stage in plan.flow if stage in unit.flow]
    for (before, larger), (after, smaller) in pairwise(staged):
        if smaller > larger:
            message = f"{smaller} {after} after {larger} {before}"
            yield _fault(unit.source("flow"), message, "Correct one of the two.")
    yield from _groups_meet_flow(unit)
    if not unit.complete and not unit.left_out:
        yield _fault(
            unit.source("complete"),
            "the figures are not complete and no case is listed as left out",
            "Add 'left_out' with counts and reasons.",
        )


def _groups_meet_flow(unit: Unit) -> Iterator[Finding]:
    """Bases that are flow stages must sum, over all groups, to that stage."""
    outcomes = {name for group in unit.groups for name in group.outcomes}
    for outcome in sorted(outcomes):
        counts = [g.outcomes[outcome] for g in unit.groups if outcome in g.outcomes]
        bases = {count.of for count in counts}
        if len(counts) != len(unit.groups) or len(bases) != 1:
            continue
        stage = bases.pop()
        total = sum(count.total for count in counts)
        if stage in unit.flow and unit.flow[stage] != total:
            message = f"{outcome}: the groups' {stage} sum to {total}, the flow says "
            message += str(unit.flow[stage])
            yield _fault(unit.source("flow"), message, "Find the missing or doubled cases.")


def _fault(source: Source, message: str, cure: str) -> Finding:
    return Finding(NAME, Severity.FAULT, source, message, cure)


RULE = UnitRule(
    NAME,
    Severity.FAULT,
    "Events within totals, totals within groups, stages that shrink, groups that sum to the flow: "
    "figures that do not meet are sent back before anything is compared.",
    check,
)
