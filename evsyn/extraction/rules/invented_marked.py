"""Invented and real studies must not share a review."""

from collections.abc import Iterator

from evsyn.extraction.review import Review
from evsyn.extraction.rules.rule import ReviewRule
from evsyn.terms import Finding, Severity

NAME = "invented-marked"


def check(review: Review) -> Iterator[Finding]:
    """Yield a fault for each study whose mark differs from the plan's."""
    for study in review.studies:
        if study.invented != review.plan.invented:
            here = "invented" if study.invented else "real"
            there = "invented" if review.plan.invented else "real"
            yield Finding(
                NAME,
                Severity.FAULT,
                study.source("invented"),
                f"the study is {here} and the review is {there}",
                "Keep them in two reviews, or correct the mark.",
            )


RULE = ReviewRule(
    NAME,
    Severity.FAULT,
    "A made-up study among real ones would give a made-up answer without a mark.",
    check,
)
