"""The evidence table: which counts of which studies feed one pool."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from evsyn.terms import OVERALL, Source


class Mark(StrEnum):
    """What a reader should know of a count before it is pooled."""

    ASSUMED = "assumed total"
    DERIVED = "derived count"
    OTHER_BASIS = "other basis"
    BASIS_NOT_STATED = "basis not stated"
    OTHER_WINDOW = "other window"
    WINDOW_NOT_STATED = "window not stated"
    PER_PROCEDURE = "per procedure"
    SUMMED = "arms summed"
    PARTIAL = "not all arms report it"
    SECOND_HAND = "read second hand"


@dataclass(frozen=True, slots=True)
class Question:
    """What is pooled: an outcome over all studies, or at one level of one stratum or of several.

    Parameters
    ----------
    outcome : str
        Outcome by its name in the plan.
    stratum, level : str
        Stratum and level by their names; both ``overall`` for all studies.
    also : tuple of (str, str)
        Further strata, each with its level, that counts must be of as well.

    Raises
    ------
    ValueError
        If a stratum is named twice, or further ones without a first.
    """

    outcome: str
    stratum: str = OVERALL
    level: str = OVERALL
    also: tuple[tuple[str, str], ...] = ()

    def __post_init__(self) -> None:
        names = [stratum for stratum, _ in self.places]
        if len(set(names)) < len(names) or (self.also and not names):
            raise ValueError(f"a question crosses strata that differ; got {self!r}")

    @property
    def places(self) -> tuple[tuple[str, str], ...]:
        """Every stratum asked about with its level; empty for all studies."""
        return () if self.stratum == OVERALL else ((self.stratum, self.level), *self.also)

    @property
    def strata(self) -> tuple[str, ...]:
        """The strata asked about; empty for all studies."""
        return tuple(stratum for stratum, _ in self.places)

    @property
    def levels(self) -> tuple[str, ...]:
        """The level asked for in each of them."""
        return tuple(level for _, level in self.places)

    @property
    def key(self) -> str:
        """One word for files and JSON, as ``perforation/intent=palliation``."""
        placed = [f"{stratum}={level}" for stratum, level in self.places]
        return "/".join([self.outcome, *(placed or [OVERALL])])


def question_at(outcome: str, places: Iterable[tuple[str, str]]) -> Question:
    """Return the question of an outcome at one level of each stratum given.

    Parameters
    ----------
    outcome : str
        Outcome by its name in the plan.
    places : iterable of (str, str)
        Strata with their levels, in the plan's order; none for all studies.
    """
    first, *also = tuple(places) or ((OVERALL, OVERALL),)
    return Question(outcome, *first, tuple(also))


@dataclass(frozen=True, slots=True)
class Cell:
    """One study's row in one pool.

    Parameters
    ----------
    study, label : str
        Name of the study, and its short label for tables.
    year : int or None
        Year of publication.
    events, total : int
        The count; summed over arms where ``Mark.SUMMED`` is set.
    basis, window : str
        Denominator basis and window of the count.
    marks : frozenset of Mark
        What a reader should know.
    sources : tuple of Source
        Every place the count came from.
    """

    study: str
    label: str
    year: int | None
    events: int
    total: int
    basis: str
    window: str
    marks: frozenset[Mark]
    sources: tuple[Source, ...]


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A count that reports the outcome and is not pooled, with the reason."""

    study: str
    label: str
    events: int
    total: int
    reason: str
    source: Source


@dataclass(frozen=True, slots=True)
class CellTable:
    """All rows of one pool, and what was left out of it."""

    question: Question
    cells: tuple[Cell, ...]
    left_out: tuple[LeftOut, ...] = ()

    @property
    def k(self) -> int:
        """Number of studies."""
        return len(self.cells)

    @property
    def events(self) -> int:
        """Events over all studies."""
        return sum(cell.events for cell in self.cells)

    @property
    def total(self) -> int:
        """Total over all studies."""
        return sum(cell.total for cell in self.cells)
