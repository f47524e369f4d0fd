"""Every day of a leap year is a full date in each of its writings, and no month is."""

from datetime import date, timedelta

import pytest

from evsyn.extraction.identifiers.full_dates import serial_date, without_full_dates

YEAR = [date(2024, 1, 1) + timedelta(days=number) for number in range(366)]
WRITINGS = [
    "{0:%Y-%m-%d}", "{0:%Y/%m/%d}", "{0:%Y.%m.%d}", "{0.year}-{0.month}-{0.day}", "{0:%d/%m/%y}",
    "{0:%d/%m/%Y}", "{0:%d.%m.%Y}", "{0:%d-%m-%Y}", "{0.day}.{0.month}.{0.year}", "{0:%m/%d/%Y}",
    "{0:%d %m %Y}", "{0:%d %b %Y}", "{0:%d %B %Y}", "{0:%d-%b-%y}", "{0:%d%b%Y}", "{0:%B %d, %Y}",
    "{0:%a %d %b %y}", "{0.day}th of {0:%B}", "{0:%B} {0.day}th", "{0:%Y %B %d}", "{0:%Y%m%d}",
    "{0:%d%m%Y}", "{0:%Y-%m-%dT%H:%M:%S}", "{0:%Y%m%dT%H%M}", "on {0:%d/%m/%Y}, well",
]  # fmt: skip
MONTHS = ["{0:%Y-%m}", "{0:%m/%Y}", "{0:%b %Y}", "{0:%B %Y}", "{0:%b-%y}", "{0:%Y%m}", "{0:%m/%y}"]


@pytest.mark.parametrize("writing", WRITINGS)
def test_every_day_is_seen(writing):
    assert [day for day in YEAR if not _seen(writing.format(day))] == []


@pytest.mark.parametrize("writing", MONTHS)
def test_a_month_alone_is_none(writing):
    assert [day for day in YEAR if _seen(writing.format(day))] == []


@pytest.mark.parametrize("text", ["32/01/2024", "2024-13-01", "20241332", "45/45/2024", "1.2.3"])
def test_what_is_no_day_is_none(text):
    assert not _seen(text)


@pytest.mark.parametrize("number", [*range(30000, 60001, 977), 30000, 60000])
def test_a_serial_number_is_the_day_that_openpyxl_gives(number):
    from openpyxl.utils.datetime import from_excel

    assert serial_date(str(number)) == from_excel(number).date()


@pytest.mark.parametrize("text", ["29999", "60001", "4536", "x", ""])
def test_other_numbers_are_no_day(text):
    assert serial_date(text) is None


def _seen(text):
    return without_full_dates(text) != text
