"""What the slides of a unit's own figures say beside the audit's own sentences."""

from collections.abc import Iterable, Sequence

from evsyn.audit.standing import Standing


def own_left_out(standings: Iterable[Standing], outcome: str = "") -> tuple[str, ...]:
    """Return the series of the unit that are left out of what it is set against.

    Parameters
    ----------
    standings : iterable of Standing
        Counts of the unit.
    outcome : str
        One outcome; empty for all.
    """
    named = (
        name
        for one in standings
        if one.benchmark is not None and outcome in ("", one.outcome)
        for name in one.benchmark.own_left_out
    )
    return tuple(dict.fromkeys(named))


def smaller_pool_sentence(own: Sequence[str]) -> str:
    """Say that a unit is set against fewer studies than the answers hold; empty if it is not."""
    if not own:
        return ""
    return f"Set against the studies without our own series ({', '.join(own)})."
