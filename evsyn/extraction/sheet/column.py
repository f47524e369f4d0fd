"""One column of a sheet: where its values stand in an extract, and what they may be."""

from dataclasses import dataclass
from enum import StrEnum


class Kind(StrEnum):
    """What the cells of a column hold."""

    TEXT = "text"
    WHOLE = "whole"
    WORD = "word"
    YES_NO = "yes_no"
    DAY = "day"
    MONTH = "month"
    CENTRES = "centres"


@dataclass(frozen=True, slots=True)
class Column:
    """A column.

    Parameters
    ----------
    heading : str
        Its heading, by which it is found again.
    path : tuple of str
        Keys down to the value, from the record its row stands for.
    kind : Kind
        What its cells hold.
    about : str
        What belongs there, in a line.
    words : str
        Name of the list its words are picked from; empty where it has none.
    names_row : bool
        Whether it is part of what its row is known by.
    needed : bool
        Whether no row of a new study can do without it.
    """

    heading: str
    path: tuple[str, ...]
    kind: Kind
    about: str
    words: str = ""
    names_row: bool = False
    needed: bool = False


@dataclass(frozen=True, slots=True)
class Tab:
    """A sheet of the workbook: its name and its columns, in order."""

    name: str
    columns: tuple[Column, ...]

    @property
    def names(self) -> tuple[Column, ...]:
        """The columns its rows are known by."""
        return tuple(column for column in self.columns if column.names_row)
