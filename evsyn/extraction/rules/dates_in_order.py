"""Dates must run forwards."""

from collections.abc import Iterator

from evsyn.extraction.review import Review
from evsyn.extraction.rules.rule import ReviewRule
from evsyn.extraction.study import Study
from evsyn.terms import Finding, Severity, Source

NAME = "dates-in-order"


def check(review: Review) -> Iterator[Finding]:
    """Yield a fault for each pair of dates that cannot both be right."""
    for study in review.studies:
        yield from _recruited(study)
        year, read = study.citation.year, study.extracted.on
        # An issue may carry the next year's date.
        if year is not None and year > int(read[:4]) + 1:
            yield _fault(
                study.extracted.source("on"),
                f"the paper of {year} was read on {read}, before it was printed",
                "Compare the year with the paper, and the day with the calendar.",
            )


def _recruited(study: Study) -> Iterator[Finding]:
    dates, year = study.setting.recruited, study.citation.year
    if dates is None:
        return
    if dates.to < dates.from_[: len(dates.to)]:
        yield _fault(
            dates.source("to"),
            f"recruitment ends in {dates.to} before it begins in {dates.from_}",
            "Compare both dates with the paper; they may be exchanged.",
        )
    if year is not None and int(dates.to[:4]) > year:
        yield _fault(
            dates.source("to"),
            f"recruitment ends in {dates.to}, after the paper of {year}",
            "Compare both dates with the paper.",
        )


def _fault(source: Source, message: str, cure: str) -> Finding:
    return Finding(NAME, Severity.FAULT, source, message, cure)


RULE = ReviewRule(
    NAME,
    Severity.FAULT,
    "The era of a study is read from its dates, so they must be possible; and nobody reads a paper "
    "years before it is printed.",
    check,
)
