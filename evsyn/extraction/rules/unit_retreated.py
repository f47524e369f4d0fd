"""Patients who were treated again count once where patients are counted."""

from collections.abc import Iterator

from evsyn.extraction.plan import Plan
from evsyn.extraction.rules.rule import UnitRule
from evsyn.extraction.unit import Unit, UnitCount
from evsyn.terms import CountedBy, Finding, Severity

NAME = "unit-retreated"


def check(unit: Unit, plan: Plan) -> Iterator[Finding]:
    """Yield a fault where devices stand in a total of patients."""
    for outcome, counts in over_devices(unit, plan).items():
        stage, total = counts[0].of, sum(count.total for count in counts)
        which = f"as many as the {total} devices" if total == unit.devices else "more"
        message = f"{outcome}: the groups' {stage} sum to {total}, {which}, "
        message += f"while {unit.flow[stage]} patients were {stage}"
        cure = "The file counts by patient: count each once, in every group, "
        cure += "however many devices were placed."
        yield Finding(NAME, Severity.FAULT, counts[0].source("total"), message, cure)


def over_devices(unit: Unit, plan: Plan) -> dict[str, list[UnitCount]]:
    """Return the counts of each outcome whose totals are patients in name and devices in fact.

    They are those over the stage at which devices are held, if they sum to more than the patients
    of that stage and to no more than the devices.
    """
    stage = plan.course.devices_of
    if unit.counted_by is not CountedBy.PATIENT or stage not in unit.flow or unit.devices is None:
        return {}
    found = {}
    for outcome in sorted({name for group in unit.groups for name in group.outcomes}):
        here = [group.outcomes[outcome] for group in unit.groups if outcome in group.outcomes]
        counts = [count for count in here if count.of == stage]
        if unit.flow[stage] < sum(count.total for count in counts) <= unit.devices:
            found[outcome] = counts
    return found


RULE = UnitRule(
    NAME,
    Severity.FAULT,
    "Where some patients hold a second device, a total taken over devices is larger than the "
    "patients, and a share of it is neither per patient nor comparable with its neighbour.",
    check,
)
