"""Sets of cases: those of whom a line of a unit file speaks."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Self

#: What every case has besides its steps. No name of a plan holds a blank, so none can clash.
STAGE, GROUP, END, LEVEL = "furthest stage", "in group", "ended as", "level of"

#: Values of a step; of a complication; of an end, a group or a level that is not had.
NO, YES, EARLY, LATE, BOTH, NONE = "no", "yes", "early", "late", "both", "not any"
HAD = frozenset({YES, EARLY, LATE, BOTH})


@dataclass(frozen=True, slots=True)
class Cases:
    """The cases to whom several things apply together.

    Parameters
    ----------
    allowed : tuple of (str, frozenset of str)
        Attribute and its allowed values, each attribute once, in order of name. An attribute that
        is not named may have any value.
    """

    allowed: tuple[tuple[str, frozenset[str]], ...] = ()

    @classmethod
    def where(cls, attribute: str, values: Iterable[str]) -> Self:
        """Return the cases of which one attribute has one of some values."""
        return cls(((attribute, frozenset(values)),))

    @property
    def attributes(self) -> frozenset[str]:
        """The attributes that matter."""
        return frozenset(name for name, _ in self.allowed)

    def __and__(self, other: "Cases") -> "Cases":
        """Return the cases of both sets."""
        both = dict(self.allowed)
        for name, values in other.allowed:
            both[name] = both[name] & values if name in both else values
        return Cases(tuple(sorted(both.items())))

    def within(self, other: "Cases") -> bool:
        """Return whether what is allowed here shows that every case is in the other set."""
        mine = dict(self.allowed)
        return all(name in mine and mine[name] <= values for name, values in other.allowed)
