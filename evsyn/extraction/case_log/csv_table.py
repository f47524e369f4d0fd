"""Read a CSV file into a table, as text."""

import csv
import re
from collections.abc import Iterator
from dataclasses import dataclass
from io import StringIO
from itertools import islice

from evsyn.extraction.case_log.encoding import text_of
from evsyn.extraction.case_log.raw_table import RawFile, RawRow, RawTable, Remark
from evsyn.extraction.case_log.refused import RefusedError, rows_words

MOST_ROWS = 20_000
COMMENT = "#"
#: Of as many columns, the first of these is taken.
SEPARATORS = (",", ";", "\t")
#: A first line by which some spreadsheets say how the columns are separated.
_SEPARATOR_LINE = re.compile(r"sep=([,;\t|])\s*", re.IGNORECASE)
#: What stands round a lone text: separators, quotation marks, spaces of every kind.
_EDGES = re.compile(r'^[\s,;"]+|[\s,;"]+$')


@dataclass(frozen=True, slots=True)
class _Record:
    number: int
    cells: tuple[str, ...]

    @property
    def is_empty(self) -> bool:
        return not any(self.cells)


def csv_file(name: str, raw: bytes) -> RawFile:
    """Read a CSV file.

    Parameters
    ----------
    name : str
        Name of the file.
    raw : bytes
        What it holds. Lines before the headings that begin with ``#`` are remarks; commas,
        semicolons or tabs separate the columns, whichever make most of the headings.

    Raises
    ------
    RefusedError
        If it cannot be read as a table; says the line.
    """
    lines = StringIO(text_of(raw), newline="").readlines()
    remarks, start, separator = _lead(lines)
    if start == len(lines):
        raise _no_headings()
    separator = separator or _separator(lines[start:], start)
    found = list(_records(lines[start:], start, separator))
    if not found:
        raise _no_headings()
    heading, rows = found[0], found[1:]
    width = max(_filled(row) for row in (heading, *rows))
    headings = (*heading.cells, *[""] * width)[:width]
    cells = (RawRow(row.number, (*row.cells, *[""] * width)[:width]) for row in rows)
    table = RawTable(name, "", headings, tuple(cells), heading.number)
    return RawFile(table, remarks=remarks, refusals=tuple(_too_wide(heading, rows)))


def bare(line: str) -> str:
    """Return a line without the quotes and separators a spreadsheet puts round a lone text."""
    return _EDGES.sub("", line)


def _no_headings() -> RefusedError:
    return RefusedError("the file holds no headings", "Write one line of headings first.", 1)


def _lead(lines: list[str]) -> tuple[tuple[Remark, ...], int, str]:
    """Return the remarks above the headings, the place of the headings, and a told separator."""
    remarks: list[Remark] = []
    separator = ""
    for place, line in enumerate(lines):
        text = bare(line)
        if told := _SEPARATOR_LINE.fullmatch(line):
            separator = told[1]
        elif text.startswith(COMMENT):
            remarks.append(Remark(f"the remark on line {place + 1}", text))
        elif text:
            return tuple(remarks), place, separator
    return tuple(remarks), len(lines), separator


def _separator(lines: list[str], start: int) -> str:
    def headings(one: str) -> int:
        return max(
            (len(record.cells) for record in islice(_records(lines, start, one), 1)), default=0
        )

    return max(SEPARATORS, key=headings)


def _records(lines: list[str], start: int, separator: str) -> Iterator[_Record]:
    """Yield the records that are not empty, each with the line it begins on."""
    reader = csv.reader(lines, delimiter=separator, strict=True)
    kept, begins = 0, 1
    try:
        for cells in reader:
            record = _Record(start + begins, tuple(cell.strip() for cell in cells))
            begins = reader.line_num + 1
            if record.is_empty:
                continue
            if kept > MOST_ROWS:
                message = f"the file holds more than {MOST_ROWS:,} rows"
                raise RefusedError(message, "Give a log of cases alone.", record.number)
            kept += 1
            yield record
    except csv.Error as error:
        message = f"the quotation marks of this row do not match ({error})"
        cure = "Look for a lone quotation mark in a cell of it."
        raise RefusedError(message, cure, start + begins) from error


def _filled(row: _Record) -> int:
    """Return the number of cells up to the last that is not empty."""
    return max(place for place, cell in enumerate(row.cells, 1) if cell)


def _too_wide(heading: _Record, rows: list[_Record]) -> Iterator[RefusedError]:
    """Yield why rows with cells beyond the headings cannot be counted."""
    width = len(heading.cells)
    wide = [row.number for row in rows if _filled(row) > width]
    if wide:
        message = f"{rows_words(wide)}: more cells than the {width} headings"
        cure = "A text that holds the separator must stand between quotation marks."
        yield RefusedError(message, cure, wide[0])
