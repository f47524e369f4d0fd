"""A count of which no outcome is known counts nothing."""

from collections.abc import Iterator

from evsyn.extraction.plan import Plan
from evsyn.extraction.rules.rule import UnitRule
from evsyn.extraction.unit import Unit
from evsyn.terms import Finding, Severity

NAME = "unit-nothing-known"


def check(unit: Unit, plan: Plan) -> Iterator[Finding]:
    """Yield a doubt for each group's count in which every outcome is unknown."""
    for group in unit.groups:
        for outcome, count in group.outcomes.items():
            if count.unknown == count.total and outcome in plan.outcomes:
                yield Finding(
                    NAME,
                    Severity.DOUBT,
                    count.source("unknown"),
                    f"{outcome}: none of the {count.total} outcomes is known, so this group gives "
                    "no count of it",
                    "Find them out, or say under 'left_out' why they cannot be had.",
                )


RULE = UnitRule(
    NAME,
    Severity.DOUBT,
    "A group of which nothing is known stands in no comparison, and a reader should know that it "
    "is missing.",
    check,
)
