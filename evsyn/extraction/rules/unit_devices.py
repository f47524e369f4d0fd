"""Devices must meet the patients who held them, and the ways they ended."""

from collections.abc import Iterator

from evsyn.extraction.plan import Plan
from evsyn.extraction.rules.rule import UnitRule
from evsyn.extraction.unit import Unit
from evsyn.terms import Finding, Severity, Source

NAME = "unit-devices"


def check(unit: Unit, plan: Plan) -> Iterator[Finding]:
    """Yield a fault for devices that are too few, too many, or do not sum."""
    ended = sum(unit.devices_end.values())
    if unit.devices is None:
        if unit.devices_end:
            yield from _too_few(ended, "the ends of devices sum to", "devices_end", unit, plan)
        return
    yield from _too_few(unit.devices, "the file counts", "devices", unit, plan)
    above = {end: number for end, number in unit.devices_end.items() if number > unit.devices}
    for end, number in above.items():
        known = plan.course.devices_end.get(end)
        message = f"{number} devices {known.label if known else end} of {unit.devices} placed"
        cure = "A placement that failed leaves no device in place: count those placed alone."
        yield _fault(unit.source(f"devices_end.{end}"), message, cure)
    if unit.devices_end and not above and ended != unit.devices:
        message = f"the ends of devices sum to {ended}, and {unit.devices} were placed"
        cure = "Each device has one end, being in place included; a failed placement has none."
        yield _fault(unit.source("devices_end"), message, cure)


def _too_few(number: int, said: str, key: str, unit: Unit, plan: Plan) -> Iterator[Finding]:
    stage = plan.course.devices_of
    if stage is not None and number < unit.flow.get(stage, 0):
        message = f"{said} {number}, and {unit.flow[stage]} were {stage}"
        cure = "Whoever had one placed holds at least one: correct one of the two."
        yield _fault(unit.source(key), message, cure)


def _fault(source: Source, message: str, cure: str) -> Finding:
    return Finding(NAME, Severity.FAULT, source, message, cure)


RULE = UnitRule(
    NAME,
    Severity.FAULT,
    "Each patient with a device placed holds at least one, each device ended in one way, and a "
    "failed placement leaves none in place. More devices than patients are no fault.",
    check,
)
