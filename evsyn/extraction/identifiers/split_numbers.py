"""Identifiers that are spread over neighbouring columns."""

from evsyn.extraction.case_log.raw_table import RawTable
from evsyn.extraction.identifiers.headings import bare_heading
from evsyn.extraction.identifiers.likeness import Likeness
from evsyn.extraction.identifiers.nhs_number import is_nhs_number
from evsyn.extraction.identifiers.plain_text import plain_text


def split_likenesses(table: RawTable) -> dict[int, Likeness]:
    """Return the columns, counted from 0, that hold parts of an identifier, and of which.

    NHS numbers over two to four neighbouring columns, told when at least half of the rows join to
    a right check digit (one in eleven would by chance); and days of the month in a column that
    stands with one of months and one of years.
    """
    found: dict[int, Likeness] = {}
    texts = [[plain_text(cell) for cell in row.cells] for row in table.rows]
    for first in range(len(table.headings)):
        for width in (2, 3, 4):
            columns = range(first, first + width)
            if columns.stop <= len(table.headings) and _join(texts, columns):
                found.update(dict.fromkeys(columns, Likeness.NHS_NUMBER))
    names = [bare_heading(heading) for heading in table.headings]
    if {"day", "month", "year"} <= set(names):
        found.setdefault(names.index("day"), Likeness.DATE)
    return found


def _join(texts: list[list[str]], columns: range) -> bool:
    parts = [[row[place] for place in columns] for row in texts]
    filled = [row for row in parts if all(row)]
    right = sum(is_nhs_number("".join(row)) for row in filled)
    return right > 0 and right >= 0.5 * len(filled)
