"""A declared overlap must name studies of the review."""

from collections.abc import Iterator
from pathlib import PurePosixPath

from evsyn.extraction.faults import nearest
from evsyn.extraction.review import Review
from evsyn.extraction.rules.rule import ReviewRule
from evsyn.terms import Finding, Severity

NAME = "overlaps-known"


def check(review: Review) -> Iterator[Finding]:
    """Yield a fault for each overlap with a study that is not there."""
    names = sorted(study.study for study in review.studies)
    # A study that is there but could not be read has a fault of its own.
    unread = {PurePosixPath(fault.source.file).stem for fault in review.faults}
    for study in review.studies:
        for overlap in study.overlaps:
            known = overlap.study in names or overlap.study in unread
            if not known or overlap.study == study.study:
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
