"""'At least twelve of fifteen series': both numbers are weighed."""

from evsyn.claims.counted import CountFound, weighed_count
from evsyn.claims.held import Held
from evsyn.claims.reach import reach_of
from evsyn.claims.series import count_series
from evsyn.claims.verdict import ClaimVerdict
from evsyn.extraction.claim_value import Amount
from evsyn.extraction.claims import Relation


def weigh_at_least(held: Held, value: Amount, wanted: int, of: int | None) -> CountFound:
    """Weigh 'so many series do so'; a wrong number of series in all contradicts it too.

    Parameters
    ----------
    held : Held
        The counts, at least one.
    value : Amount
        What they are said to do, as ``below 5%``.
    wanted, of : int
        How many are claimed, and of how many where that is said.
    """
    series = count_series(held.table, reach_of(value))
    is_met = series.by_rate >= wanted and of in (None, series.k)
    verdict = ClaimVerdict.BORNE_OUT if is_met else ClaimVerdict.CONTRADICTED
    return CountFound(
        weighed_count(held, verdict), held, Relation.AT_LEAST, value, series, wanted, of
    )
