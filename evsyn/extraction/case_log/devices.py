"""The devices of one case, and where each ended."""

from collections.abc import Iterator

from evsyn.extraction.case_log.cells import Said
from evsyn.extraction.case_log.course import Clash, Course
from evsyn.extraction.case_log.things import DEVICE_END, DEVICES
from evsyn.extraction.flow.attributes import Attributes
from evsyn.extraction.plan import Plan


def device_clashes(number: Said, ends: Said, course: Course, plan: Plan) -> Iterator[Clash]:
    """Yield what cannot be of the devices of a case, and learn from their ends.

    Parameters
    ----------
    number, ends : str, float, tuple or None
        The cells of ``devices`` and ``device_end``; ``None`` where they are not known.
    course : Course
        What may be true of the case.
    plan : Plan
        The plan of the review.
    """
    stage = plan.course.devices_of
    listed = ends if isinstance(ends, tuple) else ()
    held = stage is None or course.reaches(stage)
    if listed and not held:
        yield Clash(DEVICE_END, f"a device ended, and none was {stage}")
    if isinstance(number, int) and number > 0 and not held:
        yield Clash(DEVICES, f"devices are counted, and none was {stage}")
    if number == 0 and stage is not None and held:
        yield Clash(DEVICES, f"the case was {stage}, and holds no device")
    if listed and isinstance(number, int) and held and len(listed) != number:
        yield Clash(DEVICE_END, "the ends of devices are not as many as the devices")
    attributes = Attributes(plan)
    for end in listed:
        step = plan.course.devices_end[end].of
        if step in plan.course.steps and not course.narrow(attributes.had(step)):
            message = f"a device {plan.course.devices_end[end].label}, and '{step}' is no"
            yield Clash(DEVICE_END, message)


def devices_of(
    number: Said, ends: Said, course: Course, plan: Plan
) -> tuple[int | None, tuple[str, ...] | None]:
    """Return the number of devices of a case and their ends, each ``None`` if not known."""
    stage = plan.course.devices_of
    if stage is not None and not course.reaches(stage):
        return 0, ()
    listed = ends if isinstance(ends, tuple) else None
    if isinstance(number, int):
        return number, listed
    return (None, None) if listed is None else (len(listed), listed)
