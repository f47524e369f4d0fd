"""What a check is: a name, a severity, why it matters, and a function."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from evsyn.extraction.plan import Plan
from evsyn.extraction.review import Review
from evsyn.extraction.study import Arm, Count, Study
from evsyn.extraction.unit import Unit
from evsyn.terms import Finding, Severity, Source


@dataclass(frozen=True, slots=True)
class ReviewRule:
    """A check of a review.

    Parameters
    ----------
    name : str
        Name used in findings and in answers.
    severity : Severity
        Severity of its findings.
    why : str
        What it looks for and why, in a sentence or two; the reference page is made from it.
    check : callable
        Takes a review and yields findings.
    """

    name: str
    severity: Severity
    why: str
    check: Callable[[Review], Iterator[Finding]]


@dataclass(frozen=True, slots=True)
class UnitRule:
    """A check of a unit's own figures against the plan's words."""

    name: str
    severity: Severity
    why: str
    check: Callable[[Unit, Plan], Iterator[Finding]]


@dataclass(frozen=True, slots=True)
class Placed:
    """A count together with where it stands."""

    study: Study
    arm: Arm
    outcome: str
    count: Count

    @property
    def source(self) -> Source:
        """File, line, and ``arm.outcome`` as the key path."""
        return count_source(self.arm, self.outcome, self.count)


def count_source(arm: Arm, outcome: str, count: Count) -> Source:
    """Return the place of a count, its path shortened to ``arm.outcome``."""
    place = count.source(place=count.at or "")
    return Source(place.file, place.line, f"{arm.arm}.{outcome}", place.place)


def every_count(review: Review) -> Iterator[Placed]:
    """Yield every count of every study."""
    for study in review.studies:
        for arm in study.arms:
            for outcome, count in arm.outcomes.items():
                yield Placed(study, arm, outcome, count)
