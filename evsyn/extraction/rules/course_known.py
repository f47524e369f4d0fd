"""What the plan says of a case's course and of an audit must be in its own words."""

from collections import Counter
from collections.abc import Iterator

from evsyn.extraction.plan import Course, LabelledStratum, Plan
from evsyn.extraction.review import Review
from evsyn.extraction.rules.names_known import unknown
from evsyn.extraction.rules.rule import ReviewRule
from evsyn.terms import Finding, Severity

NAME = "course-known"


def check(review: Review) -> Iterator[Finding]:
    """Yield a fault for each word of the course or the audit that the plan does not declare."""
    plan = review.plan
    yield from _course(plan)
    yield from _audit(plan)


def _course(plan: Plan) -> Iterator[Finding]:
    course = plan.course
    places = [*plan.flow, *course.steps]
    for step in course.steps.values():
        yield from unknown(step.within, places, "stage or step", step.source("within"))
    yield from _circles(course)
    for name, stage in (
        ("patients_end_of", course.patients_end_of),
        ("devices_of", course.devices_of),
    ):
        if stage is not None:
            yield from unknown(stage, plan.flow, "stage", course.source(name))
    for end in course.devices_end.values():
        if end.of is not None:
            yield from unknown(end.of, course.steps, "step", end.source("of"))
    for outcome in plan.outcomes.values():
        if outcome.counted_as is not None:
            word = outcome.counted_as.removeprefix("not ").strip()
            yield from unknown(word, places, "stage or step", outcome.source("counted_as"))
    for word, number in Counter([*places, *course.patients_end]).items():
        if number > 1:
            message = f"'{word}' names two things in the course of a case"
            yield Finding(NAME, Severity.FAULT, course.source(), message, "Rename one of them.")


def _circles(course: Course) -> Iterator[Finding]:
    """Yield one fault for each circle of steps, at the step of it that is written first."""
    met: set[str] = set()
    for name in course.steps:
        path = [name]
        while path[-1] in course.steps and path[-1] not in met:
            met.add(path[-1])
            path.append(course.steps[path[-1]].within)
        if path[-1] in path[:-1]:
            circle = path[path.index(path[-1]) :]
            message = (
                f"steps lie within each other in a circle ({' within '.join(circle)})"
                if len(circle) > 2
                else f"the step '{circle[0]}' lies within itself"
            )
            cure = "Let one of them lie within a stage of the flow."
            source = course.steps[circle[0]].source("within")
            yield Finding(NAME, Severity.FAULT, source, message, cure)


def _audit(plan: Plan) -> Iterator[Finding]:
    audit = plan.audit
    for outcome in audit.targets:
        yield from unknown(outcome, plan.outcomes, "outcome", audit.source(f"targets.{outcome}"))
    if audit.alarm <= audit.alert:
        message = f"the alarm level {audit.alarm:g} is not above the alert level {audit.alert:g}"
        cure = "Give the alarm the higher level."
        yield Finding(NAME, Severity.FAULT, audit.source("alarm"), message, cure)
    primary = audit.primary
    if primary is None:
        return
    yield from unknown(primary.outcome, plan.outcomes, "outcome", primary.source("outcome"))
    if (primary.stratum is None) is not (primary.level is None):
        message = "the primary indicator names a stratum or a level without the other"
        yield Finding(NAME, Severity.FAULT, primary.source(), message, "Give both, or neither.")
    elif primary.stratum is not None and primary.level is not None:
        strata = {k: s for k, s in plan.strata.items() if isinstance(s, LabelledStratum)}
        yield from unknown(primary.stratum, strata, "labelled stratum", primary.source("stratum"))
        if primary.stratum in strata:
            levels, place = strata[primary.stratum].levels, primary.source("level")
            yield from unknown(primary.level, levels, f"level of '{primary.stratum}'", place)


RULE = ReviewRule(
    NAME,
    Severity.FAULT,
    "Stages, steps, ends, targets and the primary indicator of the plan must be its own words, "
    "each for one thing; a unit's figures are held together by them.",
    check,
)
