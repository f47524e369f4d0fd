"""Every patient ended somewhere, being alive included."""

from collections.abc import Iterator

from evsyn.extraction.flow.group_lines import patients_stage
from evsyn.extraction.plan import Plan
from evsyn.extraction.rules.rule import UnitRule
from evsyn.extraction.unit import Unit
from evsyn.terms import CountedBy, Finding, Severity

NAME = "unit-ends"


def check(unit: Unit, plan: Plan) -> Iterator[Finding]:
    """Yield a fault where the ends of patients do not sum to the stage they are of."""
    stage = plan.course.patients_end_of
    number = _number(unit, plan, stage)
    ended = sum(unit.patients_end.values())
    if not unit.patients_end or number is None or ended == number:
        return
    unlisted = [end for end in plan.course.patients_end if end not in unit.patients_end]
    message = f"the ends of patients sum to {ended}, and {number} were {stage}"
    cure = "Each has one end: find the missing or doubled patients."
    if unlisted and ended < number:
        cure = f"Not listed: {', '.join(unlisted)}. {cure}"
    yield Finding(NAME, Severity.FAULT, unit.source("patients_end"), message, cure)


def _number(unit: Unit, plan: Plan, stage: str | None) -> int | None:
    if stage is None or stage in unit.flow:
        return unit.flow.get(stage or "")
    if unit.groups and unit.counted_by is CountedBy.PATIENT and patients_stage(unit, plan) == stage:
        return sum(group.patients for group in unit.groups)
    return None


RULE = UnitRule(
    NAME,
    Severity.FAULT,
    "Each patient of the stage the plan names ended in one way, alive at last contact included; "
    "ends that sum to fewer leave someone out, most often the dead or the lost.",
    check,
)
