"""'Below 5%', 'above 90%', 'between 2 and 8%': weighed by the interval of the typical rate."""

from dataclasses import dataclass

from evsyn.claims.held import Held
from evsyn.claims.ordinary_units import UnitShare, unit_share
from evsyn.claims.reach import Reach
from evsyn.claims.series import SeriesCount, count_series
from evsyn.claims.verdict import ClaimVerdict, by_interval


@dataclass(frozen=True, slots=True)
class BoundFound:
    """What was found of a claim that puts a rate on one side of a number, or between two.

    Parameters
    ----------
    verdict : ClaimVerdict
        By the whole interval of the typical rate, from the row to read; ``BEYOND`` without one.
    held : Held
        The counts.
    reach : Reach
        The rates the claim is true of.
    series : SeriesCount
        Of how many series it is true.
    units : UnitShare or None
        Of what share of ordinary new units it is true.
    ordinary : ClaimVerdict or None
        The same judgement by the range for an ordinary new setting; ``None`` below five studies.
    """

    verdict: ClaimVerdict
    held: Held
    reach: Reach
    series: SeriesCount
    units: UnitShare | None
    ordinary: ClaimVerdict | None


def weigh_bound(held: Held, reach: Reach) -> BoundFound:
    """Weigh a claim that a rate lies within a reach.

    Parameters
    ----------
    held : Held
        The counts, at least one.
    reach : Reach
        The rates the claim is true of.
    """
    answer = held.pooled.answer
    verdict, ordinary = ClaimVerdict.BEYOND, None
    if answer.reading is not None:
        row = answer.reading.pooled
        verdict = by_interval(row.low, row.high, reach)
        if answer.show.verdict:
            ordinary = by_interval(row.prediction_low, row.prediction_high, reach)
    return BoundFound(
        verdict=verdict,
        held=held,
        reach=reach,
        series=count_series(held.table, reach),
        units=unit_share(answer, reach),
        ordinary=ordinary,
    )
