"""All lines of a unit file that say how many cases or devices there are."""

from evsyn.extraction.flow.attributes import Attributes
from evsyn.extraction.flow.case_lines import case_lines
from evsyn.extraction.flow.device_lines import device_lines
from evsyn.extraction.flow.group_lines import group_lines
from evsyn.extraction.flow.line import Limit, Line
from evsyn.extraction.plan import Plan
from evsyn.extraction.unit import Unit


def unit_lines(unit: Unit, plan: Plan) -> list[Line]:
    """Return every line that limits the flow of cases, in the order of the file's fields.

    Parameters
    ----------
    unit : Unit
        The unit's figures, counted by patients; all their words must be the plan's.
    plan : Plan
        The plan of the review.

    Returns
    -------
    list of Line
        Lines that say the same, as the totals of two outcomes, stand once: the first of them.
    """
    attributes = Attributes(plan, len(unit.groups))
    found: dict[tuple[Limit, ...], Line] = {}
    for line in (
        *case_lines(unit, attributes),
        *device_lines(unit, plan),
        *group_lines(unit, attributes),
    ):
        found.setdefault(line.limits, line)
    return list(found.values())
