"""The month of a case, in the ways a log may write it."""

import re
from datetime import date, datetime

from evsyn.extraction.case_log.raw_table import RawValue
from evsyn.extraction.case_log.spelling import cell_text

_NAMES = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september",
    "october", "november", "december",
)  # fmt: skip
_YEAR_FIRST = re.compile(r"(20\d\d)[-/.](\d\d?)(?:[-/.]0?1(?:[t ]00:00:00)?)?")
_MONTH_FIRST = re.compile(r"(\d\d?)[-/.](20\d\d)")
_NAMED = re.compile(r"([a-z]{3,9})\.?[-/. ]*(?:20)?(\d\d)")


def month_of(value: RawValue) -> str | None:
    """Return a month as ``2024-03``; ``None`` where the cell is no month.

    A date counts if it is the first of its month, as a spreadsheet keeps one; any other day says
    more than a month and is not taken.

    Examples
    --------
    >>> month_of("2024-03"), month_of("03/2024"), month_of("Mar 2024"), month_of("Mar-24")
    ('2024-03', '2024-03', '2024-03', '2024-03')
    >>> month_of("2024-03-17") is None
    True
    """
    if isinstance(value, (date, datetime)):
        return f"{value:%Y-%m}" if value.day == 1 and value.year >= 2000 else None
    text = " ".join(cell_text(value).lower().split())
    if found := _YEAR_FIRST.fullmatch(text):
        return _written(found[1], int(found[2]))
    if found := _MONTH_FIRST.fullmatch(text):
        return _written(found[2], int(found[1]))
    if found := _NAMED.fullmatch(text):
        named = [n for n, name in enumerate(_NAMES, 1) if name.startswith(found[1])]
        if found[1] == "sept":
            named = [9]
        return _written(f"20{found[2]}", named[0]) if len(named) == 1 else None
    return None


def _written(year: str, month: int) -> str | None:
    return f"{year}-{month:02d}" if 1 <= month <= 12 else None
