"""What a unit file says of all its cases: stages, steps, complications, ends, statements."""

from collections.abc import Iterator

from evsyn.extraction.flow.attributes import Attributes
from evsyn.extraction.flow.line import Line, number_of
from evsyn.extraction.flow.sets import BOTH, EARLY, END, LATE, Cases
from evsyn.extraction.plan import Plan
from evsyn.extraction.unit import Unit

_HOW = {"exactly": "exactly", "at_least": "at least", "at_most": "at most"}


def case_lines(unit: Unit, attributes: Attributes) -> Iterator[Line]:
    """Yield the lines of stages and steps, of complications, of ends, and the statements.

    Parameters
    ----------
    unit : Unit
        The unit's figures; all their words must be the plan's.
    attributes : Attributes
        What can be told of a case.
    """
    plan = attributes.plan
    for name, number in unit.flow.items():
        said = name if name in plan.flow else plan.course.steps[name].label
        limit = number_of(attributes.had(name), number, number)
        yield Line(unit.source(f"flow.{name}"), f"{number} {said}", (limit,))
    yield from _complications(unit, plan, attributes)
    for name, number in unit.patients_end.items():
        limit = number_of(Cases.where(END, {name}), number, number)
        words = f"{number} {plan.course.patients_end[name]}"
        yield Line(unit.source(f"patients_end.{name}"), words, (limit,))
    for statement in unit.statements:
        cases = Cases()
        for term in statement.who:
            cases &= attributes.meanings(term)[0]
        low = None if statement.how == "at_most" else statement.count
        high = None if statement.how == "at_least" else statement.count
        words = f"{_HOW[statement.how]} {statement.count} to whom '{', '.join(statement.who)}' "
        words += "applies"
        yield Line(statement.source("count"), words, (number_of(cases, low, high),))


def _complications(unit: Unit, plan: Plan, attributes: Attributes) -> Iterator[Line]:
    day = plan.course.early_days
    for name, counted in unit.complications.items():
        label = plan.course.steps[name].label
        for timing, number, cases, when in (
            (EARLY, counted.early, Cases.where(name, {EARLY, BOTH}), f"within {day} days"),
            (LATE, counted.late, Cases.where(name, {LATE, BOTH}), f"after day {day}"),
            ("ever", counted.ever, attributes.had(name), "at any time"),
        ):
            if number is not None:
                words = f"{number} {label} {when}"
                limit = number_of(cases, number, number)
                yield Line(counted.source(timing), words, (limit,))
