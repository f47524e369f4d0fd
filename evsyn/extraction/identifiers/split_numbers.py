"""Identifiers that are spread over neighbouring columns."""

from evsyn.extraction.case_log.raw_table import RawTable
from evsyn.extraction.identifiers.headings import bare_heading
from evsyn.extraction.identifiers.likeness import Likeness
from evsyn.extraction.identifiers.nhs_number import is_nhs_number
from evsyn.extraction.identifiers.plain_text import plain_text

_DAY_HEADINGS = frozenset({"day", "dd", "day of month", "day of the month"})


def split_likenesses(table: RawTable) -> dict[int, Likeness]:
    """Return the columns, counted from 0, that hold parts of an identifier, and of which.

    NHS numbers over two to four neighbouring columns, told when at least half of the rows join to
    a right check digit (one in eleven would by chance); and a column of days, filled in most rows,
    that stands beside one of months.
    """
    found: dict[int, Likeness] = {}
    texts = [[plain_text(cell) for cell in row.cells] for row in table.rows]
    for first in range(len(table.headings)):
        for width in (2, 3, 4):
            columns = range(first, first + width)
            if columns.stop <= len(table.headings) and _join(texts, columns):
                found.update(dict.fromkeys(columns, Likeness.NHS_NUMBER))
    names = [bare_heading(heading) for heading in table.headings]
    for place, name in enumerate(names):
        if name in _DAY_HEADINGS and any("month" in other for other in names):
            days = [text for row in texts if (text := row[place])]
            if len(days) > 0.5 * len(texts) and all(map(_is_day, days)):
                found.setdefault(place, Likeness.DATE)
    return found


def _is_day(text: str) -> bool:
    return text.isascii() and text.isdigit() and 1 <= int(text) <= 31


def _join(texts: list[list[str]], columns: range) -> bool:
    parts = [[row[place] for place in columns] for row in texts]
    filled = [row for row in parts if all(row)]
    right = sum(is_nhs_number("".join(row)) for row in filled)
    return right > 0 and right >= 0.5 * len(filled)
