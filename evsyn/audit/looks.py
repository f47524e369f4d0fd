"""How many comparisons were made, and how many would point outside by chance."""

import math
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
    chance_of_any : float
        The share of ordinary units that would have at least one outside, were the comparisons
        independent. It comes of the chances of the counts at which a verdict would be given;
        counts are discrete, so each is below 5%.
    """

    made: int
    outside: int
    chance_of_any: float


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
        chance_of_any=chance_of_any(reach.chance_more + reach.chance_fewer for reach, _ in seen),
    )


def chance_of_any(chances: Iterable[float]) -> float:
    """Return the chance that at least one of several independent things happens.

    Parameters
    ----------
    chances : iterable of float
        The chance of each, below 1.

    Examples
    --------
    >>> round(chance_of_any([0.05] * 12), 2)
    0.46
    """
    return -math.expm1(sum(math.log1p(-chance) for chance in chances))


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
