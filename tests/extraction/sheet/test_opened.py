"""A workbook that runs or reaches for anything is refused; a formula is read as its last value."""

from io import BytesIO
from zipfile import ZipFile

import pytest
from openpyxl import Workbook

from evsyn.extraction.load import UnreadableError
from evsyn.extraction.sheet.opened import opened, read_bytes
from evsyn.extraction.sheet.told import SheetError
from tests.extraction.sheet.workbooks import with_part

REED = ("2001-reed", "all", "perforation")


def a_book(**cells):
    book = Workbook()
    book.worksheets[0].title = "Counts"
    for cell, value in cells.items():
        book.worksheets[0][cell] = value
    kept = BytesIO()
    book.save(kept)
    return kept.getvalue()


@pytest.mark.parametrize(
    ("part", "words"),
    [
        ("xl/vbaProject.bin", "macros"),
        ("xl/externalLinks/externalLink1.xml", "links to other files"),
        ("xl/connections.xml", "a connection to other data"),
        ("xl/embeddings/oleObject1.bin", "other files"),
        ("xl/activeX/activeX1.xml", "other programs"),
    ],
)
def test_parts_that_run_or_reach_out_are_refused(part, words):
    raw = BytesIO(a_book())
    with ZipFile(raw, "a") as packed:
        packed.writestr(part, "x")
    with pytest.raises(SheetError, match=f"more than cells: {words}"):
        opened(raw.getvalue(), ["Counts"])


@pytest.mark.parametrize(
    "formula",
    [
        "=[1]Sheet1!A1",
        "='[other book.xlsx]Sheet1'!A1",
        "=cmd|'/c calc'!A0",
        '=WEBSERVICE("http://example.org")',
    ],
)
def test_a_formula_that_reaches_out_is_refused_by_its_cell(formula):
    with pytest.raises(SheetError, match="reaches for another file") as caught:
        opened(a_book(B3=formula), ["Counts"])
    assert caught.value.cell == "Counts!B3"


@pytest.mark.parametrize("formula", ['=IF(A1="a|b",1,2)', "=SUM(A1:A3)", "=Arms!A1"])
def test_a_formula_of_the_workbook_itself_is_none(formula):
    assert opened(a_book(B3=formula), ["Counts"])["Counts"][3][2].is_formula


@pytest.mark.parametrize(
    ("raw", "words"),
    [
        (b"\xd0\xcf\x11\xe0" + bytes(600), "protected by a password, or is of the old kind"),
        (b"study,arm\n", "damaged, or is not one"),
        (a_book()[:-200], "damaged, or is not one"),
        (with_part(a_book(), "xl/workbook.xml", lambda text: "<!DOCTYPE x>" + text), "damaged"),
        (with_part(a_book(A1="x"), "xl/worksheets/sheet1.xml", lambda _: "<no"), "damaged"),
    ],
)
def test_what_cannot_be_opened_is_refused_in_a_sentence(raw, words):
    with pytest.raises(SheetError, match=words) as caught:
        opened(raw, ["Counts"])
    assert caught.value.cure


def test_a_cell_far_below_is_refused():
    with pytest.raises(SheetError, match="reaches to row 900,000"):
        opened(a_book(A900000="x"), ["Counts"])


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("a.xlsm", "may hold macros"),
        ("a.csv", "does not end in .xlsx"),
        ("none.xlsx", "no such file"),
    ],
)
def test_a_file_of_another_kind_is_refused_by_its_name(tmp_path, name, words):
    if not name.startswith("none"):
        (tmp_path / name).write_bytes(a_book())
    with pytest.raises(SheetError, match=words):
        read_bytes(tmp_path / name)


def test_a_formula_is_read_as_its_value_with_a_doubt(desk):
    cell = desk.put("Counts", REED, "events", "=2+3")
    desk.book.save(desk.path)
    part = "xl/worksheets/sheet4.xml"
    empty, full = "<f>2+3</f><v></v>", "<f>2+3</f><v>5</v>"
    raw = desk.path.read_bytes()

    def calculated(text):
        assert text.replace("<v />", "<v></v>").count(empty) == 1
        return text.replace("<v />", "<v></v>").replace(empty, full)

    desk.book = None
    desk.path.write_bytes(with_part(raw, part, calculated))
    from evsyn.extraction.sheet.read import read_sheet

    found = read_sheet(desk.path, desk.folder)
    assert "events: 5" in found.texts["2001-reed.yaml"]
    told = {one.source.key_path: one.message for one in found.findings if one.rule == "sheet"}
    assert told == {cell: "the cell holds a formula; its value '5' was read"}


def test_a_formula_without_a_value_is_a_fault(desk):
    cell = desk.put("Counts", REED, "events", "=2+3")
    assert desk.fault()[:2] == (cell, "the cell holds a formula and no value")


def test_an_error_is_a_fault(desk):
    cell = desk.put("Counts", REED, "note", "#REF!")
    assert desk.fault()[:2] == (cell, "the cell holds the error #REF!")


def test_a_workbook_without_a_sheet_or_headings_is_refused(desk):
    for cell in desk.book["Arms"][2]:
        cell.value = None
    assert desk.fault()[0] == "Arms!A1"
    del desk.book["Arms"]
    with pytest.raises(UnreadableError, match="no sheet 'Arms'"):
        desk.read()
