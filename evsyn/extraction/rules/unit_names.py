"""A unit file must use the plan's words, and its dates must run forwards."""

from collections.abc import Iterator

from evsyn.extraction.plan import Plan
from evsyn.extraction.rules.names_known import level_words, unknown
from evsyn.extraction.rules.rule import UnitRule
from evsyn.extraction.unit import Unit
from evsyn.terms import NOT_STATED, Finding, Severity

NAME = "unit-words"


def check(unit: Unit, plan: Plan) -> Iterator[Finding]:
    """Yield a fault for each unknown word, and for dates that run backwards."""
    if unit.period.to < unit.period.from_[: len(unit.period.to)]:
        yield Finding(
            NAME,
            Severity.FAULT,
            unit.period.source("to"),
            f"the period ends in {unit.period.to} before it begins in {unit.period.from_}",
            "Exchange the two.",
        )
    if unit.frozen_on[: len(unit.period.to)] < unit.period.to:
        yield Finding(
            NAME,
            Severity.FAULT,
            unit.source("frozen_on"),
            f"the figures were frozen on {unit.frozen_on}, before the period ends",
            "Correct the period or the day.",
        )
    for group in unit.groups:
        for name, level in group.strata.items():
            yield from level_words(name, level, plan, group.source(f"strata.{name}"))
        for outcome, count in group.outcomes.items():
            yield from unknown(outcome, plan.outcomes, "outcome", count.source())
            yield from unknown(count.of, plan.denominators, "denominator basis", count.source("of"))
            windows = [*plan.windows, NOT_STATED]
            yield from unknown(count.window, windows, "window", count.source("window"))
    seen: dict[tuple[tuple[str, str], ...], int] = {}
    for group in unit.groups:
        key = tuple(sorted(group.strata.items()))
        line = group.source().line
        if key in seen:
            yield Finding(
                NAME,
                Severity.FAULT,
                group.source(),
                f"the groups on lines {seen[key]} and {line} have the same labels",
                "Add them up into one group.",
            )
        seen.setdefault(key, line)


RULE = UnitRule(
    NAME,
    Severity.FAULT,
    "A unit is compared level by level, so its words must be the plan's and no group may stand "
    "twice.",
    check,
)
