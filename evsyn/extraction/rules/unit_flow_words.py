"""The course of a unit's cases must be told in the plan's words."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from evsyn.extraction.faults import nearest
from evsyn.extraction.flow.attributes import Attributes
from evsyn.extraction.plan import Plan
from evsyn.extraction.rules.names_known import unknown
from evsyn.extraction.rules.rule import UnitRule
from evsyn.extraction.unit import Statement, Unit
from evsyn.terms import Finding, Severity, Source

NAME = "unit-flow-words"


def check(unit: Unit, plan: Plan) -> Iterator[Finding]:
    """Yield a fault for each stage, step, complication, end or term the plan does not have."""
    course = plan.course
    complications = [name for name, step in course.steps.items() if step.complication]
    for field, words, known, what in (
        ("flow", unit.flow, [*plan.flow, *course.steps], "flow stage or step"),
        ("complications", unit.complications, complications, "complication"),
        ("patients_end", unit.patients_end, course.patients_end, "end of patients"),
        ("devices_end", unit.devices_end, course.devices_end, "end of devices"),
    ):
        for word in words:
            yield from _unknown(word, known, what, unit.source(f"{field}.{word}"))
    for statement in unit.statements:
        yield from _terms(statement, Attributes(plan, len(unit.groups)))


def _unknown(word: str, known: Iterable[str], what: str, source: Source) -> Iterator[Finding]:
    for finding in unknown(word, known, what, source):
        yield replace(finding, rule=NAME)


def _terms(statement: Statement, attributes: Attributes) -> Iterator[Finding]:
    for term in statement.who:
        meanings = attributes.meanings(term)
        if len(meanings) == 1:
            continue
        if meanings:
            message = f"'{term}' means two things in the plan"
            cure = "Rename one of them in the plan."
        else:
            message = f"'{term}' is not a term of the plan's course of a case"
            cure = nearest(term.removeprefix("not ").strip(), attributes.words())
        yield Finding(NAME, Severity.FAULT, statement.source("who"), message, cure)


RULE = UnitRule(
    NAME,
    Severity.FAULT,
    "Stages, steps, complications, ends and the terms of statements must be words of the plan; "
    "a slip of the key would otherwise leave a line out of every check of the flow.",
    check,
)
