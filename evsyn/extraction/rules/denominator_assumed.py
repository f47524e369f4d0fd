"""A total the text does not tie to its events is an assumption."""

from collections.abc import Iterator

from evsyn.extraction.review import Review
from evsyn.extraction.rules.rule import ReviewRule, every_count
from evsyn.terms import Finding, Severity

NAME = "denominator-assumed"


def check(review: Review) -> Iterator[Finding]:
    """Yield a doubt for each count whose total is assumed."""
    for placed in every_count(review):
        if placed.count.assumed:
            yield Finding(
                NAME,
                Severity.DOUBT,
                placed.source,
                f"the paper does not tie {placed.count.events} to the total {placed.count.total}",
                "Look in the full text for the denominator of this count.",
            )


RULE = ReviewRule(
    NAME,
    Severity.DOUBT,
    "Attempted, placed and relieved are different totals; a total taken from elsewhere in the "
    "paper may be the wrong one. Each answer is repeated without these.",
    check,
)
