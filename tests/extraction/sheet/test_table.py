"""Rows and columns may be moved; what no heading names, and what stands twice, is a fault."""

import pytest

from evsyn.extraction.sheet.make import HEADING_ROW

REED = ("2001-reed", "all", "perforation")


def test_columns_may_be_moved_and_rows_sorted(desk):
    sheet = desk.book["Counts"]
    rows = [[cell.value for cell in row] for row in sheet.iter_rows()]
    above, below = rows[:HEADING_ROW], sorted(rows[HEADING_ROW:], key=str, reverse=True)
    for number, row in enumerate([*above, *below], 1):
        for place, value in enumerate(reversed(row), 1):
            sheet.cell(number, place).value = value
    found = desk.read()
    assert (found.texts, found.faults) == ({}, ())
    cell = desk.column("Counts", "events")
    row = next(r for r in range(3, 9) if sheet.cell(r, desk.column("Counts", "total")).value == 30)
    sheet.cell(row, cell).value = 3
    (edit,) = desk.read().drafts[0].edits
    assert (edit.before, edit.after, edit.cell) == (
        2,
        3,
        f"Counts!{sheet.cell(row, cell).coordinate}",
    )


@pytest.mark.parametrize("heading", ["Counted By", " counted_by ", "COUNTED  BY"])
def test_headings_are_known_by_their_letters(desk, heading):
    desk.book["Counts"].cell(HEADING_ROW, desk.column("Counts", "counted by")).value = heading
    assert desk.read().faults == ()


def test_rows_above_the_headings_may_be_added_or_deleted(desk):
    desk.book["Counts"].delete_rows(1)
    desk.book["Arms"].insert_rows(1, 3)
    assert (desk.read().texts, desk.read().faults) == ({}, ())


def test_a_column_of_no_known_heading_is_a_fault_if_it_is_used(desk):
    place = desk.book["Counts"].max_column + 1
    desk.book["Counts"].cell(HEADING_ROW, place).value = "evnts"
    assert desk.read().faults == ()
    desk.book["Counts"].cell(5, place).value = "7"
    cell, message, cure = desk.fault()
    assert cell == f"Counts!{desk.book['Counts'].cell(HEADING_ROW, place).coordinate}"
    assert message == "'evnts' is not a column of this sheet"
    assert cure.endswith("Did you mean 'events'?")
    desk.book["Counts"].cell(HEADING_ROW, place).value = None
    assert desk.fault()[1] == "no heading stands here"
    desk.book["Counts"].cell(HEADING_ROW, place).value = "events"
    assert desk.fault()[1] == "the heading 'events' stands twice"


def test_a_deleted_column_empties_nothing(desk):
    desk.book["Counts"].delete_cols(desk.column("Counts", "printed"))
    found = desk.read()
    assert (found.texts, found.faults) == ({}, ())
    assert not any(draft.emptied for draft in found.all_drafts)


def test_a_missing_column_of_names_is_a_fault(desk):
    desk.book["Counts"].delete_cols(desk.column("Counts", "arm"))
    assert desk.fault()[1] == "the sheet Counts has no column 'arm'"


def test_a_row_that_stands_twice_is_a_fault(desk):
    row = desk.add("Counts", study=REED[0], arm=REED[1], outcome=REED[2], events=4)
    cell, message, _ = desk.fault()
    assert cell == f"Counts!C{row}"
    assert message == "'2001-reed, all, perforation' stands already in row 3"


def test_a_row_without_its_names_is_a_fault(desk):
    row = desk.add("Counts", events=4, total=9)
    assert desk.fault()[:2] == (f"Counts!A{row}", "the row has no 'study'")


def test_rows_of_blanks_are_empty(desk):
    desk.book["Counts"].cell(40, 5).value = "   "
    assert desk.read().faults == ()


def test_hidden_rows_are_read(desk):
    desk.put("Counts", REED, "events", 5)
    desk.book["Counts"].row_dimensions[3].hidden = True
    assert desk.read().drafts[0].edits[0].after == 5
