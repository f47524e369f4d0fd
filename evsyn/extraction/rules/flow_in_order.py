"""Later stages of a case cannot hold more patients than earlier ones."""

from collections.abc import Iterator
from itertools import pairwise

from evsyn.extraction.review import Review
from evsyn.extraction.rules.rule import ReviewRule, count_source
from evsyn.extraction.study import Arm
from evsyn.terms import CountedBy, Finding, Severity

NAME = "flow-in-order"


def check(review: Review) -> Iterator[Finding]:
    """Yield a doubt where totals in one arm grow along the plan's flow, or one basis has two."""
    order = review.plan.flow
    for study in review.studies:
        for arm in study.arms:
            yield from _grows(arm, order)
            yield from _shifts(arm)


def _grows(arm: Arm, order: list[str]) -> Iterator[Finding]:
    staged = [
        (order.index(count.of), outcome, count)
        for outcome, count in arm.outcomes.items()
        if count.of in order and count.counted_by is CountedBy.PATIENT
    ]
    staged.sort(key=lambda item: item[0])
    for (early, _, first), (late, outcome, second) in pairwise(staged):
        if early < late and second.total > first.total:
            yield Finding(
                NAME,
                Severity.DOUBT,
                count_source(arm, outcome, second),
                f"{second.total} {second.of} after {first.total} {first.of}",
                "Compare both denominators with the paper.",
            )


def _shifts(arm: Arm) -> Iterator[Finding]:
    totals: dict[tuple[str, str], tuple[str, int]] = {}
    for outcome, count in arm.outcomes.items():
        if count.of == "as_printed":
            continue
        other = totals.setdefault((count.of, str(count.counted_by)), (outcome, count.total))
        if other[1] != count.total:
            yield Finding(
                NAME,
                Severity.DOUBT,
                count_source(arm, outcome, count),
                f"the {count.of} are {count.total} here and {other[1]} for {other[0]}",
                "One of the two is another basis, or lost patients: compare with the paper.",
            )


RULE = ReviewRule(
    NAME,
    Severity.DOUBT,
    "Denominators slide between attempted, placed and relieved: in one arm a later stage cannot "
    "be larger, and one basis should have one total.",
    check,
)
