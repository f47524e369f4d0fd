"""An arm may lie inside another; the nesting must be possible."""

from collections.abc import Iterator

from evsyn.extraction.faults import nearest
from evsyn.extraction.review import Review
from evsyn.extraction.rules.rule import ReviewRule
from evsyn.extraction.study import Arm, Study
from evsyn.terms import Covers, Finding, Severity

NAME = "arms-nest"


def check(review: Review) -> Iterator[Finding]:
    """Yield a fault for each nesting that cannot be."""
    for study in review.studies:
        wholes: dict[str | None, Arm] = {}
        for arm in study.arms:
            if arm.covers is Covers.WHOLE_STUDY and arm.treatment in wholes:
                yield _fault(arm, "two arms both cover the whole study", "Mark only one of them.")
            elif arm.covers is Covers.WHOLE_STUDY:
                wholes[arm.treatment] = arm
        for arm in study.arms:
            if arm.part_of is not None:
                yield from _parent(study, arm)


def _parent(study: Study, arm: Arm) -> Iterator[Finding]:
    names = [other.arm for other in study.arms]
    if arm.covers is Covers.WHOLE_STUDY:
        yield _fault(arm, "an arm that covers the whole study is part of another", "Choose one.")
    if arm.part_of not in names:
        message = f"'{arm.part_of}' is not an arm of this study"
        yield _fault(arm, message, nearest(str(arm.part_of), names))
        return
    visited, current = {arm.arm}, study.arm_named(str(arm.part_of))
    while current is not None:
        if current.arm in visited:
            yield _fault(arm, "the arms lie inside one another in a circle", "Break the circle.")
            return
        visited.add(current.arm)
        current = study.arm_named(current.part_of) if current.part_of else None
    parent = study.arm_named(str(arm.part_of))
    if parent is not None and arm.patients > parent.patients:
        message = f"a part of {arm.patients} patients lies inside an arm of {parent.patients}"
        yield _fault(arm, message, "Compare both numbers with the paper.")


def _fault(arm: Arm, message: str, cure: str) -> Finding:
    return Finding(NAME, Severity.FAULT, arm.source("part_of"), message, cure)


RULE = ReviewRule(
    NAME,
    Severity.FAULT,
    "An arm is never pooled beside the arm it lies inside; that needs nesting without circles, "
    "and parts no larger than the whole.",
    check,
)
