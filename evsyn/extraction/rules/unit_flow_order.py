"""A later stage cannot hold more cases than an earlier one, nor a step more than its stage."""

from collections.abc import Iterator, Mapping

from evsyn.extraction.plan import Plan
from evsyn.extraction.rules.rule import UnitRule
from evsyn.extraction.unit import Complication, Unit
from evsyn.terms import Finding, Severity, Source

NAME = "unit-flow-order"


def check(unit: Unit, plan: Plan) -> Iterator[Finding]:
    """Yield a fault for a stage that grows, and a step larger than what it lies within."""
    most = {**{name: _at_most(one) for name, one in unit.complications.items()}, **unit.flow}
    upper = {name: number for name, number in most.items() if number is not None}
    for name, number in unit.flow.items():
        yield from _above(name, number, unit.source(f"flow.{name}"), upper, plan)
    for name, complication in unit.complications.items():
        number = max(complication.early or 0, complication.late or 0, complication.ever or 0)
        yield from _above(name, number, complication.source(), upper, plan)


def _above(
    name: str, number: int, source: Source, upper: Mapping[str, int], plan: Plan
) -> Iterator[Finding]:
    for wider in _around(name, plan):
        if wider in upper:
            if number > upper[wider]:
                message = f"{number} {name} after {upper[wider]} {wider}"
                cure = "Correct one of the two."
                yield Finding(NAME, Severity.FAULT, source, message, cure)
            return


def _around(name: str, plan: Plan) -> Iterator[str]:
    """Yield what a stage or step lies within, the nearest first."""
    seen = {name}
    while name in plan.course.steps:
        name = plan.course.steps[name].within
        if name in seen:
            return
        seen.add(name)
        yield name
    if name in plan.flow:
        yield from reversed(plan.flow[: plan.flow.index(name)])


def _at_most(counted: Complication) -> int | None:
    if counted.ever is not None:
        return counted.ever
    if counted.early is None or counted.late is None:
        return None
    return counted.early + counted.late


RULE = UnitRule(
    NAME,
    Severity.FAULT,
    "Stages shrink along the flow, and a step or a complication holds no more cases than the "
    "stage or step it lies within.",
    check,
)
