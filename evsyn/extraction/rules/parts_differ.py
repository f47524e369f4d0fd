"""A whole-study count and the sum of its parts should agree."""

from collections.abc import Iterator

from evsyn.extraction.review import Review
from evsyn.extraction.rules.rule import ReviewRule, count_source
from evsyn.extraction.study import Arm, Study
from evsyn.terms import Finding, Severity

NAME = "parts-differ"


def check(review: Review) -> Iterator[Finding]:
    """Yield a doubt where parts that make up an arm do not add up to its count."""
    for study in review.studies:
        for arm in study.arms:
            yield from _arm(study, arm)


def _arm(study: Study, arm: Arm) -> Iterator[Finding]:
    parts = study.parts_of(arm)
    if not parts or sum(part.patients for part in parts) != arm.patients:
        return
    for outcome, count in arm.outcomes.items():
        shares = [part.outcomes.get(outcome) for part in parts]
        same = [s for s in shares if s is not None and (s.of, s.window) == (count.of, count.window)]
        if len(same) != len(parts):
            continue
        events, total = sum(s.events for s in same), sum(s.total for s in same)
        if (events, total) != (count.events, count.total):
            yield Finding(
                NAME,
                Severity.DOUBT,
                count_source(arm, outcome, count),
                f"the arm counts {count.events} of {count.total}, its parts {events} of {total}",
                "Compare with the paper; the arm's own count is the one pooled.",
            )


RULE = ReviewRule(
    NAME,
    Severity.DOUBT,
    "Where parts make up an arm and both report an outcome on the same basis and window, the two "
    "ways of counting must meet.",
    check,
)
