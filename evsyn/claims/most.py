"""'Most series': more than half of them, by their own rates."""

from evsyn.claims.counted import CountFound, weighed_count
from evsyn.claims.held import Held
from evsyn.claims.reach import reach_of
from evsyn.claims.series import count_series
from evsyn.claims.verdict import ClaimVerdict
from evsyn.extraction.claim_value import Amount
from evsyn.extraction.claims import Relation


def weigh_most(held: Held, value: Amount) -> CountFound:
    """Weigh 'most series do so'; half of them is not most.

    Parameters
    ----------
    held : Held
        The counts, at least one.
    value : Amount
        What most series are said to do, as ``below 5%``.
    """
    series = count_series(held.table, reach_of(value))
    is_most = 2 * series.by_rate > series.k
    verdict = ClaimVerdict.BORNE_OUT if is_most else ClaimVerdict.CONTRADICTED
    return CountFound(weighed_count(held, verdict), held, Relation.MOST, value, series)
