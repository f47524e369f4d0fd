"""There cannot be more events than the total."""

from collections.abc import Iterator

from evsyn.extraction.review import Review
from evsyn.extraction.rules.rule import ReviewRule, every_count
from evsyn.terms import Finding, Severity

NAME = "events-within-total"


def check(review: Review) -> Iterator[Finding]:
    """Yield a fault for each count whose events exceed its total."""
    for placed in every_count(review):
        count = placed.count
        if count.events > count.total:
            yield Finding(
                NAME,
                Severity.FAULT,
                placed.source,
                f"{count.events} events of {count.total} cannot be",
                "Compare both numbers with the paper; they may be exchanged.",
            )


RULE = ReviewRule(NAME, Severity.FAULT, "Events above their total are impossible.", check)
