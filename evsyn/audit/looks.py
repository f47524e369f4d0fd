"""How many comparisons were made, and how many would point outside by chance."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from evsyn.audit.changes import Change
from evsyn.audit.standardised import Standardisation
from evsyn.audit.standing import Standing
from evsyn.audit.verdict import Limits, Verdict


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


def looks(
    standings: Iterable[Standing],
    wholes: Iterable[Standardisation] = (),
    changes: Iterable[Change] = (),
) -> Looks:
    """Count the comparisons that were judged.

    Parameters
    ----------
    standings : iterable of Standing
        Counts by level.
    wholes : iterable of Standardisation
        The wholes against the unit's own case mix.
    changes : iterable of Change
        Counts against those of an earlier period.
    """
    seen = [*_of_levels(standings), *_of_wholes(wholes), *_of_changes(changes)]
    return Looks(
        made=len(seen),
        outside=sum(told in (Verdict.MORE, Verdict.FEWER) for _, told in seen),
        expected_outside=sum(reach.chance_more + reach.chance_fewer for reach, _ in seen),
    )


def _of_levels(standings: Iterable[Standing]) -> Iterator[tuple[Limits, Verdict]]:
    for found in (standing.comparison for standing in standings):
        if found is not None and found.judged:
            yield found.limits, found.verdict


def _of_wholes(wholes: Iterable[Standardisation]) -> Iterator[tuple[Limits, Verdict]]:
    for found in (whole.found for whole in wholes):
        if found is not None and found.judged:
            yield found.limits, found.verdict


def _of_changes(changes: Iterable[Change]) -> Iterator[tuple[Limits, Verdict]]:
    for later in (change.found.later for change in changes):
        if later is not None and later.judged:
            yield later.limits, later.verdict
