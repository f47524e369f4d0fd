"""How the cells of a workbook look: a few named styles, made once."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from evsyn.extraction.sheet.column import Column, Kind

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.cell.cell import Cell
    from openpyxl.worksheet.worksheet import Worksheet

#: A format under which a spreadsheet keeps what is typed letter by letter: 004, 7.70%.
AS_TYPED = "@"
WHOLE_FORMAT = "0"
PLAIN, LONG, WHOLE = "as typed", "as typed, wrapped", "whole number"
ABOUT, HEADING, NEEDED, TITLE = "about", "heading", "heading, needed", "title"
_LONG = (
    "title",
    "centres",
    "derived",
    "definition",
    "note",
    "citation note",
    "recruited note",
    "label",
    "address",
)
_READ = ("authors", "journal", "design", "at", "country")
_WIDE, _BROAD, _MIDDLE, _NARROW = 44, 30, 20, 11
READ_ME_WIDTH = 100
LINE, _MOST_LINES = 15.0, 6


class Painter:
    """Makes cells in the styles of one workbook."""

    def __init__(self, book: "Workbook") -> None:
        from openpyxl.styles import Alignment, Font, NamedStyle, PatternFill

        top, wrapped = Alignment(vertical="top"), Alignment(vertical="top", wrap_text=True)
        middle = Alignment(vertical="top", horizontal="center")
        low = Alignment(vertical="bottom", wrap_text=True)
        grey, blue = (PatternFill("solid", fgColor=colour) for colour in ("E7E9EC", "CFE0EE"))
        bold = Font(bold=True)
        for style in (
            NamedStyle(PLAIN, number_format=AS_TYPED, alignment=top),
            NamedStyle(LONG, number_format=AS_TYPED, alignment=wrapped),
            NamedStyle(WHOLE, number_format=WHOLE_FORMAT, alignment=middle),
            NamedStyle(ABOUT, font=Font(italic=True, size=9, color="505860"), alignment=low),
            NamedStyle(HEADING, font=bold, fill=grey, alignment=wrapped),
            NamedStyle(NEEDED, font=bold, fill=blue, alignment=wrapped),
            NamedStyle(TITLE, font=Font(bold=True, size=14), alignment=wrapped),
        ):
            book.add_named_style(style)

    def cell(self, sheet: "Worksheet", value: str | int | None, style: str) -> "Cell":
        """Return a cell; a text stays a text, whatever sign it begins with."""
        from openpyxl.cell import WriteOnlyCell

        made = WriteOnlyCell(sheet, value)
        if isinstance(value, str):
            made.data_type = "s"
        made.style = style
        return made

    def add_row(
        self, sheet: "Worksheet", values: Sequence[str | int | None], styles: Sequence[str]
    ) -> None:
        """Add a row of values in their styles."""
        pairs = zip(values, styles, strict=True)
        sheet.append(
            [None if value is None else self.cell(sheet, value, style) for value, style in pairs]
        )


def height_of(text: str, width: int) -> float:
    """Return the height, in points, that a text takes in a column of some letters' width."""
    lines = sum(1 + len(line) // width for line in text.split("\n"))
    return LINE * min(lines, _MOST_LINES)


def fit_height(
    sheet: "Worksheet", row: int, values: Sequence[str | int | None], columns: Sequence[Column]
) -> None:
    """Make a row as high as its longest text; not every spreadsheet does so by itself."""
    heights = [
        height_of(value, width_of(column))
        for value, column in zip(values, columns, strict=True)
        if isinstance(value, str) and column.heading in _LONG + _READ
    ]
    highest = max(heights, default=LINE)
    if highest > LINE:
        sheet.row_dimensions[row].height = highest


def style_of(column: Column) -> str:
    """Return the style of a column's cells."""
    if column.kind is Kind.WHOLE:
        return WHOLE
    return LONG if column.heading in _LONG + _READ else PLAIN


def format_of(column: Column) -> str:
    """Return the number format of a column's empty cells."""
    return WHOLE_FORMAT if column.kind is Kind.WHOLE else AS_TYPED


def width_of(column: Column) -> int:
    """Return the width of a column, in letters."""
    if column.heading in _LONG:
        return _WIDE
    if column.heading in _READ:
        return _BROAD
    if column.kind in (Kind.WHOLE, Kind.YES_NO, Kind.DAY, Kind.MONTH):
        return _NARROW
    return _MIDDLE
