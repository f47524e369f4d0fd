"""What no case can be, by the plan alone."""

from collections.abc import Iterator

from evsyn.extraction.flow.attributes import Attributes
from evsyn.extraction.flow.group_lines import grouped_stage
from evsyn.extraction.flow.sets import END, GROUP, LEVEL, NONE, Cases
from evsyn.extraction.unit import Unit
from evsyn.terms import MIXED, NOT_STATED


def impossible(attribute: str, unit: Unit, attributes: Attributes) -> Iterator[Cases]:
    """Yield the sets in which there can be no case, as far as they hang on one attribute.

    Parameters
    ----------
    attribute : str
        A step, or one of ``GROUP``, ``END``, ``LEVEL`` with a stratum.
    unit : Unit
        The unit's figures.
    attributes : Attributes
        What can be told of a case.

    Notes
    -----
    A step happens only within its stage or step. Every case that reached the stage of the ends has
    one end, and no other case has one; likewise with groups. A case of a group has the group's
    level; a group that is mixed or does not state it may hold cases of any level.
    """
    plan = attributes.plan
    if attribute in plan.course.steps:
        within = attributes.had(plan.course.steps[attribute].within)
        yield attributes.had(attribute) & attributes.opposite(within)
    elif attribute == END:
        yield from _of_stage(END, plan.course.patients_end_of, attributes)
    elif attribute == GROUP:
        yield from _of_stage(GROUP, grouped_stage(unit, plan), attributes)
    elif attribute.startswith(LEVEL):
        yield from _levels(attribute, unit, attributes)


def implied(cases: Cases, unit: Unit, attributes: Attributes) -> Cases:
    """Return the same cases with all that the plan adds: who perforated had it attempted."""
    while True:
        wider = cases
        for attribute in sorted(wider.attributes):
            for barred in impossible(attribute, unit, attributes):
                wider &= _shut_out(barred, wider, attributes)
        if wider == cases:
            return cases
        cases = wider


def _shut_out(barred: Cases, cases: Cases, attributes: Attributes) -> Cases:
    """Return what cases cannot be, if they fit a barred set in all attributes but one."""
    known = dict(cases.allowed)
    left = [
        (name, values)
        for name, values in barred.allowed
        if not (name in known and known[name] <= values)
    ]
    if len(left) != 1:
        return Cases()
    ((name, values),) = left
    return Cases.where(name, set(attributes.values(name)) - values)


def _of_stage(attribute: str, stage: str | None, attributes: Attributes) -> Iterator[Cases]:
    if stage is None:
        return
    reached, nothing = attributes.reached(stage), Cases.where(attribute, {NONE})
    yield reached & nothing
    yield attributes.opposite(reached) & attributes.opposite(nothing)


def _levels(attribute: str, unit: Unit, attributes: Attributes) -> Iterator[Cases]:
    stratum = attribute.removeprefix(LEVEL).strip()
    if not unit.groups:
        yield Cases.where(attribute, {NONE})
        return
    unplaced = Cases.where(attribute, {NONE})
    yield Cases.where(GROUP, {NONE}) & attributes.opposite(unplaced)
    for number, group in enumerate(unit.groups):
        members = Cases.where(GROUP, {str(number)})
        level = group.strata.get(stratum, NOT_STATED)
        if level in (MIXED, NOT_STATED):
            yield members & unplaced
        else:
            yield members & attributes.opposite(Cases.where(attribute, {level}))
