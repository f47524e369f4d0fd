"""'None of the series' and 'all of them': neither outlives a single exception."""

from evsyn.claims.counted import CountFound, weighed_count
from evsyn.claims.held import Held
from evsyn.claims.reach import ALL, NONE, Reach, reach_of
from evsyn.claims.series import SeriesCount, count_series
from evsyn.claims.verdict import ClaimVerdict
from evsyn.extraction.claim_value import Amount, Side
from evsyn.extraction.claims import Relation

#: Every series that saw an event at all.
_SOME = Reach(NONE.low, ALL.high, Side.ABOVE)


def weigh_none(held: Held, value: Amount | None) -> CountFound:
    """Weigh 'no series does so', or without a value 'no series saw one'.

    The second is true as a count where no series did; as a rate it says more than the data can,
    since none in so many leaves some rates open.

    Parameters
    ----------
    held : Held
        The counts, at least one.
    value : Amount or None
        What no series is said to do, as ``above 20%``.
    """
    series = count_series(held.table, _SOME if value is None else reach_of(value))
    verdict = ClaimVerdict.CONTRADICTED if series.inside else ClaimVerdict.BORNE_OUT
    return _found(held, Relation.NONE, value, series, verdict)


def weigh_all(held: Held, value: Amount | None) -> CountFound:
    """Weigh 'every series does so', or without a value 'it happened in every case'.

    Parameters
    ----------
    held : Held
        The counts, at least one.
    value : Amount or None
        What all series are said to do, as ``below 10%``.
    """
    series = count_series(held.table, ALL if value is None else reach_of(value))
    verdict = ClaimVerdict.CONTRADICTED if series.outside else ClaimVerdict.BORNE_OUT
    return _found(held, Relation.ALL, value, series, verdict)


def _found(
    held: Held,
    relation: Relation,
    value: Amount | None,
    series: SeriesCount,
    verdict: ClaimVerdict,
) -> CountFound:
    if value is None and verdict is ClaimVerdict.BORNE_OUT:
        verdict = ClaimVerdict.BEYOND
    return CountFound(
        weighed_count(held, verdict, by_exception=True), held, relation, value, series
    )
