"""Dates must run forwards."""

from collections.abc import Iterator

from evsyn.extraction.review import Review
from evsyn.extraction.rules.rule import ReviewRule
from evsyn.terms import Finding, Severity

NAME = "dates-in-order"


def check(review: Review) -> Iterator[Finding]:
    """Yield a fault where recruitment ends before it begins, or after publication."""
    for study in review.studies:
        dates = study.setting.recruited
        if dates is None:
            continue
        if dates.to < dates.from_[: len(dates.to)]:
            yield Finding(
                NAME,
                Severity.FAULT,
                dates.source("to"),
                f"recruitment ends in {dates.to} before it begins in {dates.from_}",
                "Compare both dates with the paper; they may be exchanged.",
            )
        year = study.citation.year
        if year is not None and int(dates.to[:4]) > year:
            yield Finding(
                NAME,
                Severity.FAULT,
                dates.source("to"),
                f"recruitment ends in {dates.to}, after the paper of {year}",
                "Compare both dates with the paper.",
            )


RULE = ReviewRule(
    NAME,
    Severity.FAULT,
    "The era of a study is read from its dates, so they must be possible.",
    check,
)
