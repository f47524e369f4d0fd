"""Whether a case had an outcome, and whether its course allows it."""

from collections.abc import Iterator

from evsyn.extraction.case_log.course import Clash, Course
from evsyn.extraction.case_log.settings import OutcomeWay
from evsyn.extraction.case_log.things import UNKNOWN
from evsyn.extraction.flow.sets import NO, YES

_TURNED = {YES: NO, NO: YES, UNKNOWN: UNKNOWN}


def told(way: OutcomeWay, written: str, course: Course) -> str | None:
    """Return yes, no or unknown as the row says it; ``None`` where the course must tell.

    Parameters
    ----------
    way : OutcomeWay
        How the outcome is read.
    written : str
        The cell of its column, if it has one.
    course : Course
        What may be true of the case.
    """
    if way.is_derived:
        return None
    said = written
    if way.reached is not None:
        said = YES if course.reaches(way.reached) else NO
    return _TURNED[said] if way.opposite else said


def outcome_clashes(way: OutcomeWay, written: str, course: Course) -> Iterator[Clash]:
    """Hold what the row says of an outcome to the course of the case, and learn from it."""
    had = told(way, written, course)
    if had is None:
        return
    if not course.reaches(way.of):
        if had == YES and not way.opposite and way.place is not None and way.step is None:
            message = f"{way.name} is yes, and the case was not {way.of}"
            yield Clash(way.name, message, of_outcome=True)
        return
    if way.counted is None:
        return
    if had == YES and not course.narrow(way.counted.at_most):
        message = f"{way.name} happened by its column, and not by the course"
        yield Clash(way.name, message, of_outcome=True)
    if had == NO and not course.narrow_not(way.counted.surely):
        message = f"{way.name} did not happen by its column, and did by the course"
        yield Clash(way.name, message, of_outcome=True)


def outcome_of(way: OutcomeWay, written: str, course: Course) -> str:
    """Return yes, no or unknown for a case that counts over the outcome's denominator."""
    had = told(way, written, course)
    if had is not None or way.counted is None:
        return had or UNKNOWN
    if course.surely(way.counted.surely):
        return YES
    return UNKNOWN if course.perhaps(way.counted.at_most) else NO
