"""What stands in no cell of a workbook is screened too, and told by its place."""

from io import BytesIO

import pytest
from openpyxl import Workbook
from openpyxl.comments import Comment
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.datavalidation import DataValidation

from evsyn.extraction.case_log.workbook import workbook_file
from evsyn.extraction.identifiers.screen import screen


def commented(book):
    book.worksheets[0]["B2"].comment = Comment("Mr Pemberwick rang", "ab")


def commented_elsewhere(book):
    book.create_sheet("Key")["C7"].comment = Comment("943 476 5919", "ab")


def headed(book):
    book.worksheets[0].oddHeader.center.text = "List of Dr Pemberwick"


def titled(book):
    book.properties.title = "Stents of Mr Pemberwick"


def with_choices(book):
    check = DataValidation(type="list", formula1='"surgeon,Dr Pemberwick"')
    check.add("B2:B9")
    book.worksheets[0].add_data_validation(check)


def with_prompt(book):
    check = DataValidation(type="whole", formula1="1", prompt="ask Dr Pemberwick")
    check.add("B2:B9")
    book.worksheets[0].add_data_validation(check)


def with_name(book):
    name = "Mr_Pemberwick"
    book.defined_names[name] = DefinedName(name, attr_text="Sheet!$A$1")


def with_formula(book):
    book.worksheets[0]["B3"] = '=IF(A3="Mr Pemberwick",1,0)'


def above_another_table(book):
    other = book.create_sheet("Key")
    for row in (["# for Dr Pemberwick"], ["a"], [1]):
        other.append(row)


@pytest.mark.parametrize(
    ("change", "where"),
    [
        (commented, "the comment on cell B2"),
        (commented_elsewhere, "the comment on cell C7 of sheet 1 of the others"),
        (headed, "the header or footer of the page"),
        (titled, "the title or a property of the workbook"),
        (with_choices, "a list of choices"),
        (with_prompt, "a list of choices"),
        (with_name, "the name of a range"),
        (with_formula, "the formula in cell B3"),
        (above_another_table, "row 1 of sheet 1 of the others"),
    ],
)
def test_texts_beside_the_cells_are_told_by_their_place(change, where):
    book = Workbook()
    for row in (["month", "n"], ["2024-03", 1], ["2024-04", 2]):
        book.worksheets[0].append(row)
    assert _told(book) == []
    change(book)
    (said,) = _told(book)
    assert said.startswith(f"{where} looks like it holds ")
    assert "Pemberwick" not in said


def _told(book):
    kept = BytesIO()
    book.save(kept)
    return [one.message for one in screen(workbook_file("log.xlsx", kept.getvalue(), None), {})]
