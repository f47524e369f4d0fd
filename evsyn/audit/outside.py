"""What of a unit's audit may leave the unit: its wholes, each from nothing but what may be told."""

from collections.abc import Iterable
from dataclasses import dataclass

from evsyn.audit.exact import exact_interval, one_sided_limit
from evsyn.audit.reasons import Reason
from evsyn.audit.release import ReleasedCount, released, withheld
from evsyn.audit.standing import Standing
from evsyn.audit.verdict import Limits, Verdict, verdict_at
from evsyn.terms import OVERALL, Better, Interval


@dataclass(frozen=True, slots=True)
class OutsideCount:
    """One whole count of a unit, as it may be told outside.

    Parameters
    ----------
    outcome, basis, window : str
        What was counted, of whom, and when.
    better : Better
        Whether fewer or more events are welcome.
    followed_months : float or None
        Median follow-up, where the window ends only with it.
    count : ReleasedCount
        The count.
    interval : Interval or None
        Exact interval, of a count told exactly that may be read as a share.
    one_sided : float or None
        One-sided limit, of the same.
    is_complete : bool
        Whether every outcome is known.
    limits : Limits or None
        Range of ordinary new units with these cases; ``None`` without a comparison.
    verdict : Verdict or None
        The verdict, where it is the same for every count this may be; ``None`` where it is not
        told.
    """

    outcome: str
    basis: str
    window: str
    better: Better
    followed_months: float | None
    count: ReleasedCount
    interval: Interval | None
    one_sided: float | None
    is_complete: bool
    limits: Limits | None
    verdict: Verdict | None


def outside_count(
    standing: Standing, cases: int, limits: Limits | None, *, exact: bool = False
) -> OutsideCount:
    """Return a whole count as it may be told outside.

    A count over another denominator than the unit's cases is withheld: that denominator is itself
    a count of cases, as the stents placed are, and would give a hidden one back.

    Parameters
    ----------
    standing : Standing
        The whole count.
    cases : int
        The unit's cases, which are taken as known.
    limits : Limits or None
        Range of ordinary new units with the same cases and case mix, with the counts at which a
        verdict would be given; ``None`` where there is no comparison.
    exact : bool
        Whether a person has released the exact counts of the whole.
    """
    is_of_cases = standing.total + standing.unknown == cases
    count = released(standing.events, cases) if is_of_cases else withheld(cases)
    # A whole that only some groups report is a level in truth, and stays withheld.
    if exact and is_of_cases:
        count = released(standing.events, standing.total, exact=True)
    is_known = is_of_cases and (exact or not standing.unknown)
    is_share = is_known and standing.reason is not Reason.NO_FOLLOW_UP and count.is_exact
    reach = limits if is_known else None
    return OutsideCount(
        outcome=standing.outcome,
        basis=standing.basis,
        window=standing.window,
        better=standing.better,
        followed_months=standing.followed_months,
        count=count,
        interval=exact_interval(standing.events, standing.total) if is_share else None,
        one_sided=one_sided_limit(standing.events, standing.total) if is_share else None,
        is_complete=not standing.unknown,
        limits=reach,
        verdict=None if reach is None else shared_verdict(count.possible, reach),
    )


def wholes(standings: Iterable[Standing]) -> tuple[Standing, ...]:
    """Return the counts of the whole unit, which alone are told outside."""
    return tuple(standing for standing in standings if standing.stratum == OVERALL)


def shared_verdict(possible: tuple[int, ...], limits: Limits) -> Verdict | None:
    """Return the verdict that every possible count would get; ``None`` where they differ."""
    found = {verdict_at(limits, events) for events in possible}
    return found.pop() if len(found) == 1 else None
