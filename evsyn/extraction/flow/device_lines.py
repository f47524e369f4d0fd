"""What a unit file says of devices, and what devices have to do with patients.

A patient holds at least one device from the plan's stage ``devices_of`` on, and may hold more. A
device whose end belongs to a step or complication was held by a patient who had it. Devices can
then be dealt out among patients if and only if two things hold. No device has ended so without any
such patient. And for every choice of steps, the patients who had none of the others are no more
than the devices whose ends ask for none of the others (the marriage theorem of Hall, J London Math
Soc 1935;s1-10:26-30, from memory).
"""

from collections.abc import Iterator
from itertools import combinations

from evsyn.extraction.flow.attributes import Attributes
from evsyn.extraction.flow.line import Limit, Line
from evsyn.extraction.flow.sets import Cases
from evsyn.extraction.plan import Plan
from evsyn.extraction.unit import Unit

#: The one end of devices of a plan that names no ends.
PLACED = "placed"


def device_ends(plan: Plan) -> dict[str, str | None]:
    """Return each end of devices with the step its patient must have had, if any."""
    ends = {name: end.of for name, end in plan.course.devices_end.items()}
    return ends or {PLACED: None}


def device_lines(unit: Unit, plan: Plan) -> Iterator[Line]:
    """Yield the line of devices placed, and one of each end."""
    if unit.devices is not None:
        every = tuple((1, end) for end in device_ends(plan))
        limit = Limit((), every, unit.devices, unit.devices)
        yield Line(unit.source("devices"), f"{_counted(unit.devices)} placed", (limit,))
    for name, number in unit.devices_end.items():
        words = f"{_counted(number)} {plan.course.devices_end[name].label}"
        limit = Limit((), ((1, name),), number, number)
        yield Line(unit.source(f"devices_end.{name}"), words, (limit,))


def held_by(unit: Unit, attributes: Attributes, most: int) -> Iterator[Limit]:
    """Yield what binds devices to patients, whatever the file says.

    Parameters
    ----------
    unit : Unit
        The unit's figures; nothing is yielded where they say nothing of devices.
    attributes : Attributes
        What can be told of a case.
    most : int
        A number of devices that no end of them can pass.
    """
    plan = attributes.plan
    stage = plan.course.devices_of
    if stage is None or (unit.devices is None and not unit.devices_end):
        return
    holders = attributes.reached(stage)
    ends = device_ends(plan)
    asked = sorted({step for step in ends.values() if step is not None})
    for end, step in ends.items():
        who = holders if step is None else holders & attributes.had(step)
        yield Limit(((-most, who),), ((1, end),), None, 0)
    for size in range(len(asked) + 1):
        for kept in combinations(asked, size):
            fit = tuple((-1, end) for end, of in ends.items() if of is None or of in kept)
            bare = Cases()
            for step in asked:
                if step not in kept:
                    bare &= attributes.opposite(attributes.had(step))
            yield Limit(((1, holders & bare),), fit, None, 0)


def _counted(number: int) -> str:
    return f"{number} device" if number == 1 else f"{number} devices"
