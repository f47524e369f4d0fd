"""The month of a case, in the ways a log may write it."""

import re
from datetime import date, datetime

from evsyn.extraction.case_log.raw_table import RawValue
from evsyn.extraction.case_log.spelling import cell_text
from evsyn.extraction.identifiers.plain_text import without_accents

#: How a month may be called, from January on: English, German, French, Spanish, Italian, and the
#: short forms that are no beginning of a name (from memory).
_NAMES = (
    "january januar jaenner janner janvier enero gennaio",
    "february februar feber fevrier febrero febbraio fevr",
    "march marz maerz mrz mars marzo",
    "april avril abril aprile",
    "may mai mayo maggio",
    "june juni juin junio giugno",
    "july juli juillet julio luglio",
    "august aout agosto",
    "september sept septembre septiembre setiembre settembre",
    "october oktober octobre octubre ottobre",
    "november novembre noviembre",
    "december dezember decembre diciembre dicembre",
)
_YEAR_FIRST = re.compile(r"(20\d\d)[-/.](\d\d?)(?:[-/.]0?1(?:[t ]00:00:00)?)?")
_MONTH_FIRST = re.compile(r"(\d\d?)[-/.](20\d\d)")
_NAMED = re.compile(r"([a-z]{3,10})\.?[-/. ]*(?:20)?(\d\d)")


def month_of(value: RawValue) -> str | None:
    """Return a month as ``2024-03``; ``None`` where the cell is no month.

    A date counts if it is the first of its month, as a spreadsheet keeps one; any other day says
    more than a month and is not taken. A name may be cut short as long as it fits one month alone.

    Examples
    --------
    >>> month_of("2024-03"), month_of("03/2024"), month_of("Mar 2024"), month_of("Mrz 24")
    ('2024-03', '2024-03', '2024-03', '2024-03')
    >>> month_of("2024-03-17") is None
    True
    """
    if isinstance(value, (date, datetime)):
        return f"{value:%Y-%m}" if value.day == 1 and value.year >= 2000 else None
    text = " ".join(without_accents(cell_text(value)).split())
    if found := _YEAR_FIRST.fullmatch(text):
        return _written(found[1], int(found[2]))
    if found := _MONTH_FIRST.fullmatch(text):
        return _written(found[2], int(found[1]))
    if found := _NAMED.fullmatch(text):
        fitting = [
            number
            for number, names in enumerate(_NAMES, 1)
            if any(name.startswith(found[1]) for name in names.split())
        ]
        return _written(f"20{found[2]}", fitting[0]) if len(fitting) == 1 else None
    return None


def _written(year: str, month: int) -> str | None:
    return f"{year}-{month:02d}" if 1 <= month <= 12 else None
