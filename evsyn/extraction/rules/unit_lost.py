"""Cases lost to follow-up are told the same twice."""

from collections.abc import Iterator

from evsyn.extraction.plan import Plan
from evsyn.extraction.rules.rule import UnitRule
from evsyn.extraction.unit import Unit
from evsyn.terms import Finding, Severity

NAME = "unit-lost"
#: The name an end must have to be taken for this; a plan may know none.
LOST = "lost"


def check(unit: Unit, plan: Plan) -> Iterator[Finding]:
    """Yield a doubt where ``followed`` and the ends of patients differ in the cases lost."""
    said = None if unit.followed is None else unit.followed.lost
    ended = unit.patients_end.get(LOST) if LOST in plan.course.patients_end else None
    if unit.followed is not None and said is not None and ended is not None and said != ended:
        message = f"followed: {said} lost; patients ended: {ended} lost"
        cure = "Count them again from the notes, and correct one of the two."
        yield Finding(NAME, Severity.DOUBT, unit.followed.source("lost"), message, cure)


RULE = UnitRule(
    NAME,
    Severity.DOUBT,
    "The cases lost to follow-up stand in two places, under followed and among the ends of "
    "patients (where the plan has an end named lost), and should be as many in both.",
    check,
)
