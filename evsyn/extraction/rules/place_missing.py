"""Every count needs its place in the paper."""

from collections.abc import Iterator

from evsyn.extraction.review import Review
from evsyn.extraction.rules.rule import ReviewRule, every_count
from evsyn.terms import Finding, Severity

NAME = "place-missing"


def check(review: Review) -> Iterator[Finding]:
    """Yield a doubt for each count without a place in the paper."""
    for placed in every_count(review):
        if placed.count.at is None:
            yield Finding(
                NAME,
                Severity.DOUBT,
                placed.source,
                f"{placed.count.events} of {placed.count.total} has no place in the paper",
                "Add 'at', as at: \"Table 2, p. 5\".",
            )


RULE = ReviewRule(NAME, Severity.DOUBT, "A number nobody can find again cannot be checked.", check)
