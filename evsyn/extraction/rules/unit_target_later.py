"""A target should be older than the figures held to it."""

from collections.abc import Iterator

from evsyn.extraction.plan import Plan
from evsyn.extraction.rules.rule import UnitRule
from evsyn.extraction.unit import Unit
from evsyn.terms import Finding, Severity

NAME = "unit-target-later"


def check(unit: Unit, plan: Plan) -> Iterator[Finding]:
    """Yield a note for each target of the plan decided after the unit's figures were frozen."""
    for outcome, target in plan.audit.targets.items():
        if target.decided_on > unit.frozen_on:
            message = (
                f"the target for {outcome} was decided on {target.decided_on}, after the figures "
                f"were frozen on {unit.frozen_on}"
            )
            cure = "Nobody can tell whether it was set with the figures in sight: say so with it."
            yield Finding(NAME, Severity.NOTE, unit.source("frozen_on"), message, cure)


RULE = UnitRule(
    NAME,
    Severity.NOTE,
    "A target settled after the figures were frozen may have been chosen with the figures in "
    "sight, and a unit that meets it or misses it then says little.",
    check,
)
