"""Dates to the day, in the writings that people use."""

import re
from datetime import date, timedelta

_MONTH = (
    r"(?:jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?"
    r"|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)\.?"
)
_DAY = r"(?:0?[1-9]|[12]\d|3[01])"
_NUMBER_MONTH = r"(?:0?[1-9]|1[0-2])"
_YEAR = r"(?:(?:19|20)\d\d|'?\d\d)"
_LONG_YEAR = r"(?:19|20)\d\d"
_GAP = r"[\s,.\-/]*"
_ROMAN = r"(?:XI{0,2}|IX|IV|VI{0,3}|I{1,3}|V|X)"

_WRITTEN = re.compile(
    "|".join(
        (
            # 2024-03-17, 2024/3/17, with or without a time behind
            rf"(?<!\d){_LONG_YEAR}\s?([-/._])\s?{_NUMBER_MONTH}\s?\1\s?{_DAY}(?!\d)",
            # 2024-W11-7, the seventh day of a week
            rf"(?<!\d){_LONG_YEAR}-?W[0-5]\d-?[1-7](?!\d)",
            # 17/03/24, 17.3.2024, 3-17-2024
            rf"(?<![\d.]){_DAY}\s?([-/.,_\\])\s?{_NUMBER_MONTH}\s?\2\s?{_YEAR}(?!\d)",
            rf"(?<![\d.]){_NUMBER_MONTH}\s?([-/._\\])\s?{_DAY}\s?\3\s?{_YEAR}(?!\d)",
            rf"(?<![\d.]){_DAY}\s{_NUMBER_MONTH}\s{_LONG_YEAR}(?!\d)",
            rf"(?<!\d){_LONG_YEAR}年{_NUMBER_MONTH}月{_DAY}日",
            # 20240317, 17032024
            rf"(?<!\d){_LONG_YEAR}(?:0[1-9]|1[0-2])(?:0[1-9]|[12]\d|3[01])(?:T?\d{{4,6}})?(?!\d)",
            rf"(?<!\d)(?:0[1-9]|[12]\d|3[01])(?:0[1-9]|1[0-2]){_LONG_YEAR}(?!\d)",
            # 17 Mar 2024, 17th of March 24, March 17, 2024, 2024 March 17
            rf"(?<!\d){_DAY}(?:st|nd|rd|th)?{_GAP}(?:of\s)?{_MONTH}{_GAP}{_YEAR}(?!\d)",
            rf"\b{_MONTH}{_GAP}{_DAY}(?:st|nd|rd|th)?{_GAP}{_LONG_YEAR}(?!\d)",
            rf"(?<!\d){_LONG_YEAR}{_GAP}{_MONTH}{_GAP}{_DAY}(?!\d)",
            rf"(?<!\d){_DAY}\s?[./-]\s?{_ROMAN}\s?[./-]\s?{_YEAR}(?!\d)",
            # 17th March, March 17th, 17 Mar, 17-Mar; "may" is left out, being a verb
            rf"(?<!\d){_DAY}(?:st|nd|rd|th)\s(?:of\s)?{_MONTH}(?![a-z])",
            rf"\b{_MONTH}\s{_DAY}(?:st|nd|rd|th)\b",
            rf"(?<![\d.]){_DAY}[\s-](?!may\b){_MONTH}(?![a-z])",
        )
    ),
    re.IGNORECASE,
)
_BIRTH = re.compile(r"\b(?:d\.?\s?o\.?\s?b|born|birth(?:day|date)?|geb)\b", re.IGNORECASE)
#: Of another language: 17. März 2024.
_FOREIGN = re.compile(rf"{_DAY}\.?\s[^\W\d_]{{3,9}}\.?\s{_LONG_YEAR}")
#: In a column of dates alone: 17/3, which is no month and year; 17 03 24.
_SHORT = re.compile(
    rf"(?:1[3-9]|2\d|3[01])[-/.]{_NUMBER_MONTH}|{_DAY}[\s,]{_NUMBER_MONTH}[\s,]\d\d"
)
_FEW, _PRACTICE = 5, 20 * 366
_SERIAL = re.compile(r"\d{5}(?:\.\d+)?")
#: Day 0 of the serial numbers of spreadsheets, as they count from March 1900 on.
_SERIAL_START = date(1899, 12, 30)


def without_full_dates(text: str) -> str:
    """Return the text with each full date cut out; the same text when it holds none."""
    return "" if _FOREIGN.fullmatch(text) else _WRITTEN.sub(" ; ", text)


def is_short_date(text: str) -> bool:
    """Whether a value of a column of dates is a day and a month, or six digits of a date."""
    return _SHORT.fullmatch(text) is not None


def tells_birth(text: str) -> bool:
    """Whether words of birth stand in a text that holds a full date."""
    return _BIRTH.search(text) is not None and without_full_dates(text) != text


def serial_date(text: str) -> date | None:
    """Return the day a spreadsheet means by a number from 30000 to 60000 (1982 to 2064)."""
    if not _SERIAL.fullmatch(text) or not 30000 <= float(text) <= 60000:
        return None
    return _SERIAL_START + timedelta(days=int(float(text)))


def are_serial_dates(texts: list[str]) -> bool:
    """Whether all values of a column are such numbers, of this century, that do not run on.

    By themselves they could be anything; five and more that all fall into a few years of practice
    are hardly anything else.
    """
    days = {day for text in texts if (day := serial_date(text)) is not None and day.year >= 2000}
    if len(texts) < _FEW or len(days) < 0.8 * len(texts):
        return False
    span = (max(days) - min(days)).days
    return 2 * len(days) < span < _PRACTICE
