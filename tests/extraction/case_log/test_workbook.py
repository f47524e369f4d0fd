"""A workbook is read as its sheet shows it, and what hides in it is not passed over."""

from datetime import date, datetime
from io import BytesIO
from zipfile import ZIP_DEFLATED, ZipFile

import pytest
from openpyxl import Workbook

from evsyn.extraction.case_log.packing import MOST_BYTES
from evsyn.extraction.case_log.refused import RefusedError
from evsyn.extraction.case_log.workbook import workbook_file


def book_of(*rows):
    book = Workbook()
    for row in rows:
        book.worksheets[0].append(list(row))
    return book


def bytes_of(book):
    kept = BytesIO()
    book.save(kept)
    return kept.getvalue()


def packed(**parts):
    kept = BytesIO()
    with ZipFile(kept, "w", ZIP_DEFLATED) as made:
        for name, content in parts.items():
            made.writestr(name, content)
    return kept.getvalue()


ROWS = (["# invented data"], [], ["month", "n"], [date(2024, 3, 1), 2], [], ["2024-04", True])


def read(book, sheet=None):
    return workbook_file("log.xlsx", bytes_of(book), sheet)


def test_values_keep_their_kind_and_rows_their_number():
    found = read(book_of(*ROWS))
    assert found.table.headings == ("month", "n")
    assert found.table.heading_row == 3
    assert [(row.number, row.cells) for row in found.table.rows] == [
        (4, (datetime(2024, 3, 1), 2)),
        (6, ("2024-04", True)),
    ]
    assert (found.remarks[0].where, found.remarks[0].text) == ("row 1", "# invented data")


def test_what_stands_beside_the_table_is_held_too():
    book = book_of(*ROWS)
    sheet = book.worksheets[0]
    sheet.column_dimensions["B"].hidden = True
    other = book.create_sheet("Key")
    other.append(["ref", "who"])
    other.append(["a", "somebody"])
    other.sheet_state = "hidden"
    found = read(book)
    assert found.table.hidden == {1}
    assert found.others[0].headings == ("ref", "who")
    assert found.others[0].column(1) == ("somebody",)
    assert read(book, "Key").table.sheet == "Key"


def test_no_name_of_a_sheet_is_told_before_it_is_screened():
    book = book_of(["a"])
    book.create_sheet("Mr Pemberwick")["A30000"] = 1
    with pytest.raises(RefusedError, match="sheet 2 of the workbook reaches to row 30,000"):
        read(book)
    with pytest.raises(RefusedError, match="the workbook has no sheet 'Mr Pemberwik'") as caught:
        read(book, "Mr Pemberwik")
    assert "Pemberwick" not in caught.value.cure


def test_without_a_name_the_first_sheet_that_shows_is_read():
    book = book_of(["kept aside"])
    book.create_sheet("Cases").append(["a"])
    book.worksheets[0].sheet_state = "hidden"
    found = read(book)
    assert found.table.headings == ("a",)
    assert found.others[0].headings == ("kept aside",)


def test_neighbours_hidden_together_are_all_hidden():
    book = book_of(["a", "b", "c", "d"], [1, 2, 3, 4])
    book.worksheets[0].column_dimensions.group("B", "C", hidden=True)
    assert read(book).table.hidden == {1, 2}


@pytest.mark.parametrize(
    ("formulas", "message"),
    [
        (["=1+1"], "cell A2 holds a formula and no value"),
        (["=1+1", "=2+2", "=3+3"], "cell A2 and 2 more hold formulas and no value"),
    ],
)
def test_a_formula_without_a_value_is_refused(formulas, message):
    (refusal,) = read(book_of(["a", "b", "c"], formulas)).refusals
    assert (refusal.message, refusal.line) == (message, 2)


def test_rows_that_nobody_sees_are_not_counted():
    book = book_of(["a"], [1], [2], [3], [], [5])
    for row in (3, 5, 6):
        book.worksheets[0].row_dimensions[row].hidden = True
    (refusal,) = read(book).refusals
    assert refusal.message.startswith("rows 3 and 6: hidden")
    assert refusal.line == 3


def test_one_forgotten_cell_far_below_is_not_a_table_of_millions():
    book = book_of(["a"])
    book.worksheets[0]["XFD1048576"] = 1
    with pytest.raises(RefusedError, match="reaches to row 1,048,576, column 16,384"):
        read(book)


ENTITIES = b'<?xml version="1.0"?><!DOCTYPE a [<!ENTITY b "bb">]><a>&b;</a>'


@pytest.mark.parametrize(
    ("raw", "message"),
    [
        (b"", "damaged"),
        (b"PK\x03\x04 and no more", "damaged"),
        (packed(a=b"no workbook"), "damaged"),
        (packed(a=ENTITIES), "damaged"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "protected by a password"),
        (packed(a=b"0" * (MOST_BYTES + 1)), "unpacks to more than 20 MB"),
    ],
    ids=["empty", "cut", "other", "entities", "password", "large"],
)
def test_what_is_no_workbook_is_refused(raw, message):
    with pytest.raises(RefusedError, match=message):
        workbook_file("log.xlsx", raw, None)


def test_a_damaged_part_is_refused():
    raw = BytesIO(bytes_of(book_of(*ROWS)))
    kept = BytesIO()
    with ZipFile(raw) as old, ZipFile(kept, "w") as new:
        for part in old.infolist():
            content = old.read(part)
            new.writestr(part, content[:-40] if part.filename.endswith("sheet1.xml") else content)
    with pytest.raises(RefusedError, match="damaged"):
        workbook_file("log.xlsx", kept.getvalue(), None)
