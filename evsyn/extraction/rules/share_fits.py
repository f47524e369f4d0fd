"""Percentages kept for checking must be ones their denominators can give."""

from collections.abc import Iterator

from evsyn.extraction.percentages import Fit, counts_that_fit, fit_of
from evsyn.extraction.review import Review
from evsyn.extraction.rules.rule import ReviewRule
from evsyn.extraction.study import PrintedShare
from evsyn.terms import Finding, Severity

NAME = "share-fits"


def check(review: Review) -> Iterator[Finding]:
    """Yield a doubt for each kept percentage that no offered denominator gives."""
    for study in review.studies:
        for share in study.also_printed:
            if _possible(share):
                continue
            place = share.source(place=share.at or "")
            over = " or ".join(map(str, share.totals))
            count = "no count" if share.events is None else f"{share.events}"
            yield Finding(
                NAME,
                Severity.DOUBT,
                place,
                f"{share.what}: the paper prints {share.printed}, which {count} of {over} gives"
                if share.events is None
                else f"{share.what}: {count} of {over} cannot be printed as {share.printed}",
                "Read the full text for the denominator; do not use the percentage.",
            )


def _possible(share: PrintedShare) -> bool:
    accepted = (Fit.ROUNDED, Fit.TRUNCATED, Fit.UNREAD)
    if share.events is not None:
        return any(
            share.events <= total and fit_of(share.events, total, share.printed) in accepted
            for total in share.totals
        )
    return any(
        counts_that_fit(total, share.printed) or fit_of(0, total, share.printed) is Fit.UNREAD
        for total in share.totals
    )


RULE = ReviewRule(
    NAME,
    Severity.DOUBT,
    "A percentage that fits none of its possible denominators shows a hidden denominator; a "
    "count made from it would be a guess.",
    check,
)
