"""What of a unit's own count may be told outside the unit.

Counts of 1 to 7 are hidden, others rounded to the nearest 5; none and all are told. What is told
of a count, here or anywhere else, may then depend on nothing but the set of counts it could be,
so that no percentage, interval, place or length gives back what was hidden.

Source of the rule: NHS Digital, disclosure control for hospital episode statistics from September
2018 (the change of method was read; that noughts are told and the rest rounded to 5, from memory).
"""

from dataclasses import dataclass
from enum import StrEnum

#: Counts from 1 to this are hidden.
LARGEST_HIDDEN = 7
#: Other counts are rounded to the nearest multiple of this.
ROUNDED_TO = 5
#: A count must be one of at least this many, unless it is told exactly.
LEAST_POSSIBLE = 3


class Told(StrEnum):
    """How a count is told."""

    EXACT = "exact"
    ROUNDED = "rounded"
    HIDDEN = "hidden"
    WITHHELD = "withheld"


@dataclass(frozen=True, slots=True)
class ReleasedCount:
    """A count as it is told outside.

    Parameters
    ----------
    told : Told
        How it is told; ``WITHHELD`` where even its size may not be.
    shown : int or None
        The number printed; ``None`` where none is.
    total : int
        Cases it is a count of.
    possible : tuple of int
        Every count that is told in this same way.
    """

    told: Told
    shown: int | None
    total: int
    possible: tuple[int, ...]

    @property
    def is_exact(self) -> bool:
        """Whether the printed number is the count itself."""
        return self.told is Told.EXACT


def released(events: int, total: int, *, exact: bool = False) -> ReleasedCount:
    """Return a count as it may be told outside.

    Parameters
    ----------
    events, total : int
        The count.
    exact : bool
        Whether a person has released exact counts.

    Raises
    ------
    ValueError
        If the count is not one of the total's.

    Notes
    -----
    The total is taken as known, so a small number of cases without the event hides the count as
    well. Counts that fewer than three others would be rounded with are hidden too.
    """
    if not 0 <= events <= total:
        raise ValueError(f"events must lie between 0 and {total}; got {events!r}")
    if exact:
        return ReleasedCount(Told.EXACT, events, total, (events,))
    if total <= LARGEST_HIDDEN:
        return withheld(total)
    if events in (0, total):
        return ReleasedCount(Told.EXACT, events, total, (events,))
    possible = next(group for group in _groups(total) if events in group)
    shown = _to_five(events)
    is_rounded = min(possible) > LARGEST_HIDDEN and max(possible) < total - LARGEST_HIDDEN
    told = Told.ROUNDED if is_rounded else Told.HIDDEN
    return ReleasedCount(told, shown if is_rounded else None, total, tuple(possible))


def withheld(total: int) -> ReleasedCount:
    """Return a count of which nothing is told, neither its size nor of how many it is."""
    return ReleasedCount(Told.WITHHELD, None, total, tuple(range(total + 1)))


def rounded(number: int) -> int | None:
    """Return a number of cases rounded as counts are; ``None`` where it is hidden."""
    return None if 1 <= number <= LARGEST_HIDDEN else _to_five(number)


def _groups(total: int) -> list[range]:
    """Part the counts that are neither none nor all into those told alike, in order."""
    few, many = range(1, LARGEST_HIDDEN + 1), range(total - LARGEST_HIDDEN, total)
    between = range(few.stop, many.start)
    if len(between) < LEAST_POSSIBLE:
        return [range(1, total)]
    groups = [few]
    for x in between:
        if len(groups) > 1 and _to_five(x) == _to_five(groups[-1].start):
            groups[-1] = range(groups[-1].start, x + 1)
        else:
            groups.append(range(x, x + 1))
    if len(groups[-1]) < LEAST_POSSIBLE:
        many = range(groups.pop().start, total)
    return [*groups, many]


def _to_five(number: int) -> int:
    return ROUNDED_TO * ((number + ROUNDED_TO // 2) // ROUNDED_TO)
