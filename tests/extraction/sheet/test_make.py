"""A workbook offers the plan's own words and keeps what is typed letter by letter."""

from io import BytesIO
from pathlib import Path

import pytest
from openpyxl import load_workbook

from evsyn.extraction.load import read_extracts
from evsyn.extraction.sheet.make import workbook_bytes
from evsyn.extraction.sheet.tabs import tabs
from evsyn.wording.sheet import sheet_words
from tests.extraction.sheet.workbooks import Desk

ROOT = Path(__file__).parent.parent.parent.parent
PUBLISHED = ROOT / "studies" / "published"


def picked(book, sheet, letter, row):
    """Return the words offered in a cell."""
    for check in book[sheet].data_validations.dataValidation:
        if check.type == "list" and f"{letter}{row}" in check.sqref:
            where, _, cells = check.formula1.partition("!")
            return [cell.value for line in book[where][cells.replace("$", "")] for cell in line]
    return None


def test_lists_to_pick_from_are_the_plans_words(desk):
    book = load_workbook(BytesIO(desk.path.read_bytes()))
    for row in (3, 60):
        assert picked(book, "Counts", "C", row) == ["perforation", "success"]
        assert picked(book, "Counts", "F", row) == ["attempted", "placed", "as_printed"]
        assert picked(book, "Arms", "F", row) == ["palliation", "bridge", "mixed", "not_stated"]
        assert picked(book, "Counts", "A", row)[:3] == ["2001-reed", "2010-sedge", None]
    assert picked(book, "Counts", "J", 3) is None


def test_headings_say_what_belongs_there_and_what_each_word_means(desk):
    book = load_workbook(BytesIO(desk.path.read_bytes()))
    counts = book["Counts"]
    assert counts["F2"].value == "of"
    assert "attempted: patients attempted" in counts["F2"].comment.text
    assert counts["F1"].value.startswith("whom the total counts")
    assert counts["A1"].value.startswith("INVENTED DATA")
    assert book["Read me"]["A1"].value.startswith("INVENTED DATA: An invented review")
    assert counts.freeze_panes == "D3"


@pytest.mark.parametrize("text", ["=1+1", "+4 of 9", "-", "@all", "#REF!", "004", "7.70%"])
def test_a_text_stays_a_text_whatever_it_begins_with(tiny, tmp_path, text):
    tiny.reed('printed: "7.7%"', f'note: "{text}"')
    desk = Desk(tiny.folder, tmp_path / "again.xlsx")
    cell = desk.cell("Counts", ("2001-reed", "all", "perforation"), "note")
    assert (cell.value, cell.data_type, cell.number_format) == (text, "s", "@")
    assert desk.read().texts == {}


@pytest.mark.parametrize("text", [r"two\r\nlines", r"two\nlines", "a_x000D_b", "tab\\tand"])
def test_a_text_of_several_lines_is_no_change(tiny, tmp_path, text):
    tiny.reed('printed: "7.7%"', f'note: "{text}"')
    assert Desk(tiny.folder, tmp_path / "again.xlsx").read().texts == {}


def test_empty_cells_keep_what_is_typed_too(desk):
    sheet = load_workbook(BytesIO(desk.path.read_bytes()))["Counts"]
    assert sheet.column_dimensions["J"].number_format == "@"
    assert sheet.column_dimensions["D"].number_format == "0"


def test_columns_of_equal_name_are_told_apart(tiny, tmp_path):
    tiny.plan("    site: {", "    label: {label: Other, kind: text}\n    site: {")
    _, arms, _ = tabs(read_extracts(tiny.folder).plan)
    headings = [column.heading for column in arms.columns]
    assert {"label", "label (characteristics)"} <= set(headings)
    desk = Desk(tiny.folder, tmp_path / "again.xlsx")
    desk.put("Arms", ("2001-reed", "all"), "label (characteristics)", "x")
    (draft,) = desk.read().drafts
    assert draft.edits[0].path == ("arms", 0, "characteristics", "label")


def test_a_real_review_carries_no_mark():
    review = read_extracts(PUBLISHED)
    raw = workbook_bytes(review.plan, (), sheet_words(review.plan))
    book = load_workbook(BytesIO(raw))
    cells = [cell.value for sheet in book for row in sheet.iter_rows() for cell in row]
    assert not any("INVENTED" in str(value) for value in cells)
    assert book["Counts"].max_row == 2
