"""A unit's own count as a figure may show it: exactly, as one of several, or not at all.

Nothing else in a figure may depend on a count that is not shown exactly: whatever is drawn or said
beside it is made from the counts it could be.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Self

from evsyn.audit.release import ReleasedCount, Told


@dataclass(frozen=True, slots=True)
class OwnCount:
    """A count, as far as it is told.

    Parameters
    ----------
    possible : tuple of int
        Every count it may be, in order: one where it is told exactly, none where it is withheld.
    total : int or None
        The cases it is a count of; ``None`` where even their number is withheld.

    Raises
    ------
    ValueError
        If a count is not one of the total's.
    """

    possible: tuple[int, ...]
    total: int | None

    def __post_init__(self) -> None:
        if self.total is None:
            if self.possible:
                raise ValueError("a count cannot be told without the number of cases")
        elif self.total < 1 or not all(0 <= x <= self.total for x in self.possible):
            raise ValueError(f"each possible count must lie between 0 and {self.total}")
        if list(self.possible) != sorted(set(self.possible)):
            raise ValueError("possible counts must stand in order, each once")

    @classmethod
    def exact(cls, events: int, total: int) -> Self:
        """Return a count told as it is."""
        return cls((events,), total)

    @classmethod
    def one_of(cls, possible: Iterable[int], total: int) -> Self:
        """Return a count told as one of several."""
        return cls(tuple(sorted(set(possible))), total)

    @classmethod
    def withheld(cls, total: int | None = None) -> Self:
        """Return a count that is not told; without ``total`` neither is its size."""
        return cls((), total)

    @classmethod
    def released(cls, told: ReleasedCount) -> Self:
        """Return a count as it may be told outside the unit."""
        if told.told is Told.WITHHELD:
            return cls.withheld()
        return cls.one_of(told.possible, told.total)

    @property
    def is_exact(self) -> bool:
        """Whether it is told as it is."""
        return len(self.possible) == 1

    @property
    def is_withheld(self) -> bool:
        """Whether nothing of it is told."""
        return not self.possible
