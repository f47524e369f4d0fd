"""Figures that are not complete must say what is missing."""

from collections.abc import Iterator

from evsyn.extraction.plan import Plan
from evsyn.extraction.rules.rule import UnitRule
from evsyn.extraction.unit import Unit
from evsyn.terms import Finding, Severity

NAME = "unit-left-out"


def check(unit: Unit, _: Plan) -> Iterator[Finding]:
    """Yield a fault where the figures are not complete and no case is listed as left out."""
    if not unit.complete and not unit.left_out:
        yield Finding(
            NAME,
            Severity.FAULT,
            unit.source("complete"),
            "the figures are not complete and no case is listed as left out",
            "Add 'left_out' with counts and reasons.",
        )


RULE = UnitRule(
    NAME,
    Severity.FAULT,
    "Cases that are missing without a number and a reason may be the ones that went badly.",
    check,
)
