"""What was found of a claim that counts series."""

from dataclasses import dataclass

from evsyn.claims.held import Held
from evsyn.claims.series import SeriesCount
from evsyn.claims.verdict import ClaimVerdict
from evsyn.extraction.claim_value import Amount
from evsyn.extraction.claims import Relation
from evsyn.pooling.answer import Show

#: Fewer series than this are two single reports, and no 'all', 'none' or 'most'.
LEAST_SERIES = 3


@dataclass(frozen=True, slots=True)
class CountFound:
    """What was found of 'none', 'most', 'all' or 'at least so many' series.

    Parameters
    ----------
    verdict : ClaimVerdict
        What becomes of the claim.
    held : Held
        The counts.
    relation : Relation
        What is said of the number of series.
    value : Amount or None
        What the series are said to do; ``None`` where they are said to have seen no event, or
        nothing else.
    series : SeriesCount
        Of how many series it is true.
    wanted, of : int or None
        For 'at least': how many series are claimed, and of how many.
    """

    verdict: ClaimVerdict
    held: Held
    relation: Relation
    value: Amount | None
    series: SeriesCount
    wanted: int | None = None
    of: int | None = None


def weighed_count(held: Held, verdict: ClaimVerdict, *, by_exception: bool = False) -> ClaimVerdict:
    """Return a verdict on a number of series, as far as so many series may give one.

    Nothing is borne out by one or two series, nor by counts that the plan says are not shares of
    one thing; there, a claim that an exception contradicts stays contradicted, and others are
    left open.

    Parameters
    ----------
    held : Held
        The counts.
    verdict : ClaimVerdict
        What the number of series says.
    by_exception : bool
        Whether a single series contradicts the claim.
    """
    answer = held.pooled.answer
    if verdict is ClaimVerdict.CONTRADICTED:
        is_open = answer.show is Show.REFUSED and not by_exception
    else:
        is_open = answer.show is Show.REFUSED or answer.k < LEAST_SERIES
    return ClaimVerdict.BEYOND if is_open else verdict
