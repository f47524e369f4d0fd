"""How many comparisons were made, and how many would point outside by chance."""

from collections.abc import Iterable
from dataclasses import dataclass

from evsyn.audit.standing import Standing


@dataclass(frozen=True, slots=True)
class Looks:
    """Comparisons with a verdict.

    Parameters
    ----------
    made : int
        How many verdicts were given.
    outside : int
        How many of them lie outside the range.
    expected_outside : float
        How many ordinary units' figures would, on average: the chances of the counts at which a
        verdict would be given, added up. Counts are discrete, so this is below 5% of ``made``.
    """

    made: int
    outside: int
    expected_outside: float


def looks(standings: Iterable[Standing]) -> Looks:
    """Count the comparisons among a unit's standings."""
    judged = [s.comparison for s in standings if s.comparison is not None and s.comparison.judged]
    return Looks(
        made=len(judged),
        outside=sum(comparison.is_unfavourable is not None for comparison in judged),
        expected_outside=sum(c.limits.chance_more + c.limits.chance_fewer for c in judged),
    )
