"""What the slides of a unit's own figures say beside the audit's own sentences."""

from collections.abc import Iterable, Sequence

from evsyn.audit.outside import OutsideCount
from evsyn.audit.release import Told
from evsyn.audit.standing import Standing
from evsyn.extraction.plan import Plan
from evsyn.wording.numbers import percent
from evsyn.wording.outside import outside_verdict, told_words


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


def outside_line(item: OutsideCount, plan: Plan) -> str:
    """Say in a line what may be told of a whole count; the full sentences are in the notes.

    Parameters
    ----------
    item : OutsideCount
        The count as it may be told.
    plan : Plan
        The plan, for its words.
    """
    label = plan.outcomes[item.outcome].label
    if item.count.told is Told.WITHHELD:
        return f"{label}: withheld by rule."
    said = f"{label}: {told_words(item)}, {outside_verdict(item).replace('withheld', 'no verdict')}"
    if item.limits is None:
        return f"{said}."
    return f"{said}; ordinary new units show {item.limits.low:,} to {item.limits.high:,}."


def target_title(label: str, rate: float, unit: str) -> str:
    """Head the slide of a target where a hidden count leaves no funnel to draw."""
    return f"{label}: target {percent(rate)}, and what may be told of {unit}"
