"""A workbook that keeps more than its cells show is refused before it is opened."""

from io import BytesIO
from zipfile import ZipFile

import pytest
from openpyxl import Workbook
from openpyxl.chart import BarChart, Reference
from openpyxl.comments import Comment
from openpyxl.worksheet.table import Table

from evsyn.extraction.case_log.packing import check_package
from evsyn.extraction.case_log.refused import RefusedError


def bytes_of(book):
    kept = BytesIO()
    book.save(kept)
    return kept.getvalue()


def a_book():
    book = Workbook()
    for row in (["month", "n"], ["2024-03", 1]):
        book.worksheets[0].append(row)
    return book


@pytest.mark.parametrize(
    ("part", "words"),
    [
        ("xl/vbaProject.bin", "macros"),
        ("xl/pivotCache/pivotCacheRecords1.xml", "a pivot table"),
        ("xl/externalLinks/externalLink1.xml", "links to other files"),
        ("xl/connections.xml", "a connection to other data"),
        ("xl/model/item.data", "a data model"),
        ("xl/media/image1.png", "pictures"),
        ("xl/embeddings/oleObject1.bin", "other files"),
    ],
)
def test_parts_beside_the_cells_are_refused(part, words):
    raw = BytesIO(bytes_of(a_book()))
    with ZipFile(raw, "a") as packed:
        packed.writestr(part, "Mr Pemberwick")
    with pytest.raises(RefusedError, match=f"more than cells: {words}") as caught:
        check_package(raw.getvalue())
    assert "Pemberwick" not in caught.value.message + caught.value.cure


def test_a_chart_keeps_values_and_is_refused():
    book = a_book()
    chart = BarChart()
    chart.add_data(Reference(book.worksheets[0], min_col=2, min_row=2, max_row=2))
    book.worksheets[0].add_chart(chart, "E2")
    with pytest.raises(RefusedError, match="more than cells"):
        check_package(bytes_of(book))


def test_what_any_log_may_hold_is_taken():
    book = a_book()
    sheet = book.worksheets[0]
    sheet["A2"].comment = Comment("counted twice", "ab")
    sheet.auto_filter.ref = "A1:B2"
    sheet.add_table(Table(displayName="cases", ref="A1:B2"))
    check_package(bytes_of(book))
