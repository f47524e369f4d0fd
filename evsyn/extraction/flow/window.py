"""Which cases an outcome counts within its window, as far as the course of a case tells."""

from dataclasses import dataclass

from evsyn.extraction.flow.attributes import Attributes
from evsyn.extraction.flow.sets import BOTH, EARLY, Cases

_NOT = "not "


@dataclass(frozen=True, slots=True)
class Counted:
    """The cases with an outcome, between two sets.

    Parameters
    ----------
    surely, at_most : Cases
        Every case of the first counts, and none outside the second; the same set where the window
        is one in which the unit file counts too.
    """

    surely: Cases
    at_most: Cases

    @property
    def is_exact(self) -> bool:
        """Whether the outcome is one set of cases."""
        return self.surely == self.at_most


def counted_in(outcome: str, window: str, attributes: Attributes) -> Counted | None:
    """Return the cases that an outcome counts.

    Parameters
    ----------
    outcome, window : str
        Names from the plan.
    attributes : Attributes
        What can be told of a case.

    Returns
    -------
    Counted or None
        ``None`` where the plan neither says as what the outcome is counted nor has a step of its
        name.

    Notes
    -----
    A stage is reached or not, whatever the window. A complication within a window as long as
    'early' is an early one, within an open window one at any time; a shorter or a longer window
    lies between. A window that ends with an event, or is not stated, tells only that the
    complication was had at some time.
    """
    plan = attributes.plan
    written = plan.outcomes[outcome].counted_as
    if written is None and outcome not in plan.course.steps:
        return None
    is_opposite = written is not None and written.startswith(_NOT)
    thing = outcome if written is None else written.removeprefix(_NOT).strip()
    surely, at_most = _had_in(thing, window, attributes)
    if is_opposite:
        return Counted(attributes.opposite(at_most), attributes.opposite(surely))
    return Counted(surely, at_most)


def _had_in(thing: str, window: str, attributes: Attributes) -> tuple[Cases, Cases]:
    plan = attributes.plan
    ever = attributes.had(thing)
    if thing in plan.flow:
        return ever, ever
    nobody = Cases.where(thing, ())
    stretch = plan.windows.get(window)
    if stretch is None:
        return nobody, ever
    if stretch.is_open:
        return ever, ever
    if stretch.days is None or not plan.course.steps[thing].complication:
        return nobody, ever
    early = Cases.where(thing, {EARLY, BOTH})
    if stretch.days < plan.course.early_days:
        return nobody, early
    return early, early if stretch.days == plan.course.early_days else ever
