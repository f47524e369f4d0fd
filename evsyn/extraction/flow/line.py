"""One line of a unit file as limits on how many cases and devices of each kind there are."""

from dataclasses import dataclass

from evsyn.extraction.flow.sets import Cases
from evsyn.terms import Source


@dataclass(frozen=True, slots=True)
class Limit:
    """Low and high limit of a sum of numbers of cases and of devices.

    Parameters
    ----------
    cases : tuple of (int, Cases)
        Factor and set of cases.
    devices : tuple of (int, str)
        Factor and end of devices.
    low, high : int or None
        Limits, both included; ``None`` where there is none.
    """

    cases: tuple[tuple[int, Cases], ...] = ()
    devices: tuple[tuple[int, str], ...] = ()
    low: int | None = None
    high: int | None = None


@dataclass(frozen=True, slots=True)
class Line:
    """What one line of the file says.

    Parameters
    ----------
    source : Source
        Where it stands.
    words : str
        What it says, as a piece of a sentence.
    limits : tuple of Limit
        The same as limits; all must hold.
    """

    source: Source
    words: str
    limits: tuple[Limit, ...]

    @property
    def place(self) -> str:
        """The line of the file; empty where it has none, as in figures made from a log."""
        return f"line {self.source.line}" if self.source.line else ""

    def __str__(self) -> str:
        return f"{self.place}, {self.words}" if self.place else self.words


def number_of(cases: Cases, low: int | None, high: int | None) -> Limit:
    """Return the limits of the number of one set of cases."""
    return Limit(((1, cases),), (), low, high)
