"""A declared overlap must name studies of the review."""

from collections.abc import Iterator

from evsyn.extraction.faults import nearest
from evsyn.extraction.review import Review
from evsyn.extraction.rules.rule import ReviewRule
from evsyn.terms import Finding, Severity

NAME = "overlaps-known"


def check(review: Review) -> Iterator[Finding]:
    """Yield a fault for each overlap with a study that is not there."""
    names = sorted(study.study for study in review.studies)
    for study in review.studies:
        for overlap in study.overlaps:
            if overlap.study not in names or overlap.study == study.study:
                yield Finding(
                    NAME,
                    Severity.FAULT,
                    overlap.source("study"),
                    f"'{overlap.study}' is not another study of this review",
                    nearest(overlap.study, names),
                )
            if overlap.keep is not None and overlap.keep not in (study.study, overlap.study):
                yield Finding(
                    NAME,
                    Severity.FAULT,
                    overlap.source("keep"),
                    f"'{overlap.keep}' is neither of the two studies",
                    f"Write {study.study} or {overlap.study}.",
                )


RULE = ReviewRule(
    NAME,
    Severity.FAULT,
    "An overlap with a study that is not in the folder protects against nothing.",
    check,
)
