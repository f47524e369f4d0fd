"""What cells say: numbers, dates and percentages as a spreadsheet keeps them."""

from datetime import datetime, time

import pytest

from evsyn.extraction.sheet.cells import said
from evsyn.extraction.sheet.column import Column, Kind
from evsyn.extraction.sheet.opened import RawCell


def read(kind, value, shape="General"):
    return said(Column("column", ("column",), kind, ""), RawCell(value, shape))


@pytest.mark.parametrize(
    ("kind", "value", "shape", "wanted"),
    [
        (Kind.WHOLE, 4, "0", 4),
        (Kind.WHOLE, 4.0, "General", 4),
        (Kind.WHOLE, "004", "@", 4),
        (Kind.TEXT, "004", "@", "004"),
        (Kind.TEXT, "7.70%", "@", "7.70%"),
        (Kind.TEXT, 0.077, "0.0%", "7.7%"),
        (Kind.TEXT, 0.5, "0%", "50%"),
        (Kind.TEXT, 11488119, "General", "11488119"),
        (Kind.TEXT, 7.7, "General", "7.7"),
        (Kind.TEXT, " two_x000D_\nlines ", "@", "two\nlines"),
        (Kind.TEXT, "  ", "@", None),
        (Kind.YES_NO, True, "General", "yes"),
        (Kind.YES_NO, "No", "@", "no"),
        (Kind.DAY, datetime(2026, 1, 5), "dd/mm/yyyy", "2026-01-05"),
        (Kind.DAY, "2026-01-05", "@", "2026-01-05"),
        (Kind.MONTH, datetime(2008, 12, 1), "mmm\\-yy", "2008-12"),
        (Kind.MONTH, datetime(2008, 12, 1), "[$-809]mmmm yyyy", "2008-12"),
        (Kind.MONTH, datetime(2008, 12, 1), "dd/mm/yyyy", "2008-12-01"),
        (Kind.MONTH, datetime(2008, 12, 31), "mmm-yy", "2008-12-31"),
        (Kind.MONTH, datetime(2008, 1, 1), "yyyy", "2008"),
        (Kind.MONTH, 2008, "General", "2008"),
        (Kind.DAY, "25/11/2026", "@", "2026-11-25"),
        (Kind.DAY, "5 Nov 2026", "@", "2026-11-05"),
        (Kind.MONTH, "March 2015", "@", "2015-03"),
        (Kind.MONTH, "Dec 2019", "@", "2019-12"),
        (Kind.MONTH, "03/2015", "@", "2015-03"),
    ],
)
def test_a_cell_says_what_its_reader_sees(kind, value, shape, wanted):
    found = read(kind, value, shape)
    assert (found.value, found.wrong, found.doubtful) == (wanted, (), ())


@pytest.mark.parametrize(
    ("kind", "value"),
    [
        (Kind.WHOLE, 4.5),
        (Kind.WHOLE, float("inf")),
        (Kind.WHOLE, "1,234"),
        (Kind.WHOLE, True),
        (Kind.WHOLE, "4 of 52"),
        (Kind.YES_NO, "perhaps"),
        (Kind.TEXT, datetime(2026, 5, 1)),
        (Kind.TEXT, time(3, 15)),
        (Kind.DAY, datetime(2026, 5, 1, 14, 30)),
        (Kind.DAY, "05/11/2026"),
        (Kind.DAY, "March 2015"),
        (Kind.DAY, 46351),
        (Kind.MONTH, "Ma 2015"),
    ],
)
def test_what_may_not_be_what_was_typed_is_a_fault(kind, value):
    found = read(kind, value)
    assert found.value is None
    message, cure = found.wrong
    assert "'column'" in message
    assert cure


def test_a_percentage_is_no_count():
    assert "under 'printed'" in read(Kind.WHOLE, 1.0, "0%").wrong[1]
    assert "printed" not in read(Kind.WHOLE, "1,050").wrong[1]


def test_a_date_of_two_readings_is_told_as_such():
    message, cure = read(Kind.DAY, "05/11/2026").wrong
    assert "can be read in two ways" in message
    assert "2026-11-25" in cure


def test_a_percentage_shown_with_other_digits_than_it_holds_is_doubted():
    found = read(Kind.TEXT, 4 / 52, "0.0%")
    assert found.value == "7.7%"
    assert "shows 7.7% and holds 7.6923" in found.doubtful[0]
    assert "shows 7.70% and holds 7.7%" in read(Kind.TEXT, 0.077, "0.00%").doubtful[0]
