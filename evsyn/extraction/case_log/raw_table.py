"""A table as it stands in a file, before anything in it is understood."""

from dataclasses import dataclass
from datetime import date, datetime, time
from typing import TypeAlias

from evsyn.extraction.case_log.refused import RefusedError

#: A cell as the file holds it; text of a CSV is always text.
RawValue: TypeAlias = str | int | float | bool | date | datetime | time | None


@dataclass(frozen=True, slots=True)
class RawRow:
    """One line of a table.

    Parameters
    ----------
    number : int
        Its row in the file, counted from 1 with the headings.
    cells : tuple
        Its values; as many as there are columns.
    """

    number: int
    cells: tuple[RawValue, ...]


@dataclass(frozen=True, slots=True)
class RawTable:
    """A table, with all that stands beside it in the same file.

    Parameters
    ----------
    file : str
        Name of the file.
    sheet : str
        Name of the sheet; empty for a CSV.
    headings : tuple of str
        Heading of each column; empty where it has none.
    rows : tuple of RawRow
        The lines below the headings; empty ones are left out.
    heading_row : int
        Row of the headings in the file.
    hidden : frozenset of int
        Columns that a spreadsheet does not show, counted from 0.
    """

    file: str
    sheet: str
    headings: tuple[str, ...]
    rows: tuple[RawRow, ...]
    heading_row: int = 1
    hidden: frozenset[int] = frozenset()

    def column(self, place: int) -> tuple[RawValue, ...]:
        """Return the values of one column, counted from 0."""
        return tuple(row.cells[place] for row in self.rows)


@dataclass(frozen=True, slots=True)
class Remark:
    """A text beside the tables.

    Parameters
    ----------
    where : str
        Where it stands, as 'the comment on cell B4'.
    text : str
        The text.
    """

    where: str
    text: str


@dataclass(frozen=True, slots=True)
class RawFile:
    """All that a log file holds.

    Parameters
    ----------
    table : RawTable
        The table that is read.
    others : tuple of RawTable
        Every other sheet, hidden ones included; what is not read may still tell who a patient is.
    remarks : tuple of Remark
        Comments on cells, titles and other texts of the file; lines above the headings come first.
    refusals : tuple of RefusedError
        Why the table cannot be counted; told only once the file is known to name nobody.
    """

    table: RawTable
    others: tuple[RawTable, ...] = ()
    remarks: tuple[Remark, ...] = ()
    refusals: tuple[RefusedError, ...] = ()
