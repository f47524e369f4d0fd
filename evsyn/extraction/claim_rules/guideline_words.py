"""Recorded guidelines use the plan's words, and each statement has a name of its own."""

from collections.abc import Iterator

from evsyn.extraction.claim_rules.rule import GuidelineRule
from evsyn.extraction.guidelines import Guidelines
from evsyn.extraction.plan import Plan
from evsyn.extraction.rules.names_known import unknown
from evsyn.terms import Finding, Severity

NAME = "guideline-words"


def check(guidelines: Guidelines, plan: Plan) -> Iterator[Finding]:
    """Yield a fault for unknown outcomes, doubled ids, another review's name or mark."""
    if guidelines.guidelines != plan.review:
        message = f"these are the guidelines of '{guidelines.guidelines}', beside '{plan.review}'"
        cure = "Correct the name, or move the file."
        yield Finding(NAME, Severity.FAULT, guidelines.source("guidelines"), message, cure)
    if guidelines.invented != plan.invented:
        here = "invented" if guidelines.invented else "real"
        there = "invented" if plan.invented else "real"
        message = f"the guidelines are {here} and the review is {there}"
        cure = "Correct the mark, or keep them apart."
        yield Finding(NAME, Severity.FAULT, guidelines.source("invented"), message, cure)
    for outcome in guidelines.no_pass_mark:
        place = guidelines.source("no_pass_mark")
        yield from unknown(outcome, plan.outcomes, "outcome", place)
    seen: dict[str, int] = {}
    for one in guidelines.statements:
        if one.id in seen:
            message = f"'{one.id}' is also the statement on line {seen[one.id]}"
            cure = "Give each statement an id of its own."
            yield Finding(NAME, Severity.FAULT, one.source("id"), message, cure)
        seen.setdefault(one.id, one.source().line)


RULE = GuidelineRule(
    NAME,
    Severity.FAULT,
    "A claim points at a statement by its id, so ids must differ; and invented guidelines stand "
    "beside an invented review only.",
    check,
)
