"""Parts printed in a paper should add up to the total printed beside them."""

from collections.abc import Iterator

from evsyn.extraction.review import Review
from evsyn.extraction.rules.rule import ReviewRule
from evsyn.terms import Finding, Severity

NAME = "sum-differs"


def check(review: Review) -> Iterator[Finding]:
    """Yield a doubt for each kept sum that does not come out."""
    for study in review.studies:
        for kept in study.sums:
            added = sum(kept.parts)
            if added != kept.total:
                place = kept.source(place=kept.at or "")
                parts = " + ".join(map(str, kept.parts))
                yield Finding(
                    NAME,
                    Severity.DOUBT,
                    place,
                    f"{kept.what}: {parts} = {added}, and the paper prints {kept.total}",
                    "Read the full text for the missing or doubled cases.",
                )


RULE = ReviewRule(
    NAME,
    Severity.DOUBT,
    "End states that sum to more or fewer than the total mean a case lost or counted twice.",
    check,
)
