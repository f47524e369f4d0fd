"""A denominator larger than the arm is counted in something else."""

from collections.abc import Iterator

from evsyn.extraction.review import Review
from evsyn.extraction.rules.rule import ReviewRule, every_count
from evsyn.terms import CountedBy, Finding, Severity

NAME = "total-above-patients"


def check(review: Review) -> Iterator[Finding]:
    """Yield a doubt where a total exceeds the patients, or the procedures, of its arm."""
    for placed in every_count(review):
        count, arm = placed.count, placed.arm
        if count.counted_by is CountedBy.PATIENT:
            limit, unit = arm.patients, "patients"
        elif arm.procedures is not None:
            limit, unit = arm.procedures, "procedures"
        else:
            yield Finding(
                NAME,
                Severity.DOUBT,
                placed.source,
                f"counted by {count.counted_by}, and the arm's procedures are not given",
                "Add 'procedures' to the arm, or say in an answer why the count stays.",
            )
            continue
        if count.total > limit:
            yield Finding(
                NAME,
                Severity.DOUBT,
                placed.source,
                f"a total of {count.total} in an arm of {limit} {unit}",
                "Say what is counted ('counted_by: procedure'), or correct the total.",
            )


RULE = ReviewRule(
    NAME,
    Severity.DOUBT,
    "More cases in a denominator than patients in the arm means that procedures or devices were "
    "counted.",
    check,
)
