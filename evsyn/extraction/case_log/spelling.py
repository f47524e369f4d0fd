"""When two words of a log are the same, and what a cell says as text."""

import unicodedata
from datetime import date, datetime, time

from evsyn.extraction.case_log.raw_table import RawValue

#: What a log writes where something is not known; an empty cell says the same.
UNKNOWN_WORDS = ("unknown", "not known", "not stated", "n/k", "nk", "?", "missing")


def spelled(text: str) -> str:
    """Return a word without what is passed over: case, blanks, underscores and hyphens.

    Examples
    --------
    >>> spelled("Through-the-scope "), spelled("through_the_scope")
    ('throughthescope', 'throughthescope')
    """
    plain = unicodedata.normalize("NFKC", text).casefold()
    return "".join(one for one in plain if not one.isspace() and one not in "_-\u2010\u2011\u2013")


def cell_text(value: RawValue) -> str:
    """Return what a cell says, as it would be typed."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    if isinstance(value, (datetime, date, time)):
        return value.isoformat()
    return str(value).strip()
