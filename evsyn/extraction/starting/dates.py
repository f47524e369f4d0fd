"""Days and months as people type them, where one reading alone is possible."""

import re

from evsyn.extraction.case_log.months import month_of

_DAY_FIRST = re.compile(r"(\d\d?)[/.](\d\d?)[/.]((?:18|19|20)\d\d)")
_DAY_NAMED = re.compile(r"(\d\d?)(?:st|nd|rd|th|\.)?[ -]([A-Za-z]{3,9})\.?[ -]((?:18|19|20)\d\d)")
_MONTH_NAMED = re.compile(r"([A-Za-z]{3,9})\.?[ -]((?:18|19|20)\d\d)")
_MONTH_SLASH = re.compile(r"(\d\d?)/((?:18|19|20)\d\d)")


def plain_date(written: str) -> str:
    """Return a day or month as ``2026-11-25`` or ``2015-03``, where it can be read in one way.

    What cannot is returned as it was written: 05/11/2026 is a day in May for some and in November
    for others.

    Examples
    --------
    >>> plain_date("25/11/2026"), plain_date("5 Nov 2026"), plain_date("March 2015")
    ('2026-11-25', '2026-11-05', '2015-03')
    >>> plain_date("05/11/2026"), plain_date("2019")
    ('05/11/2026', '2019')
    """
    said = " ".join(written.split())
    if found := _DAY_FIRST.fullmatch(said):
        first, second, year = int(found[1]), int(found[2]), found[3]
        if first == second or first > 12 >= second:
            return f"{year}-{second:02d}-{first:02d}"
        return written
    if found := _DAY_NAMED.fullmatch(said):
        month = _month(found[2])
        return f"{found[3]}-{month}-{int(found[1]):02d}" if month else written
    if found := _MONTH_NAMED.fullmatch(said):
        month = _month(found[1])
        return f"{found[2]}-{month}" if month else written
    if found := _MONTH_SLASH.fullmatch(said):
        return f"{found[2]}-{int(found[1]):02d}"
    return written


def is_two_ways(written: str) -> bool:
    """Return whether a date has two numbers either of which may be its month."""
    found = _DAY_FIRST.fullmatch(" ".join(written.split()))
    return found is not None and plain_date(written) == written


def _month(name: str) -> str:
    """Return the number of a month that is named, in two digits; empty for no month."""
    found = month_of(f"{name} 2000")
    return found[-2:] if found else ""
