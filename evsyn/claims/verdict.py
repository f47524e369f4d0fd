"""What becomes of a claim."""

from enum import StrEnum

from evsyn.claims.reach import Reach


class ClaimVerdict(StrEnum):
    """What the review, as searched, allows of a sentence."""

    BORNE_OUT = "borne_out"
    CONTRADICTED = "contradicted"
    BEYOND = "more_than_the_data_can_say"
    NOTHING_HELD = "nothing_held"


def by_interval(low: float, high: float, reach: Reach) -> ClaimVerdict:
    """Judge a statement on a rate by the interval of that rate.

    Parameters
    ----------
    low, high : float
        The interval, proportions.
    reach : Reach
        The rates of which the statement is true.

    Returns
    -------
    ClaimVerdict
        ``BORNE_OUT`` where it is true of the whole interval, ``CONTRADICTED`` where it is true of
        none of it, else ``BEYOND``.
    """
    if reach.holds_all(low, high):
        return ClaimVerdict.BORNE_OUT
    return ClaimVerdict.CONTRADICTED if reach.misses_all(low, high) else ClaimVerdict.BEYOND
