"""Read a workbook into tables: the one that is asked for, and all that stands beside it."""

import warnings
from collections.abc import Iterator, Sequence
from io import BytesIO
from typing import TYPE_CHECKING, Any
from zipfile import ZipFile

from evsyn.extraction.case_log.csv_table import COMMENT, MOST_ROWS
from evsyn.extraction.case_log.raw_table import RawFile, RawRow, RawTable, RawValue
from evsyn.extraction.case_log.refused import RefusedError
from evsyn.extraction.faults import nearest

if TYPE_CHECKING:
    from openpyxl.workbook import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

#: Bytes of a workbook, packed and unpacked: a log of cases needs a hundredth of it.
MOST_BYTES = 20_000_000
MOST_CELLS = 1_000_000
_OLD = b"\xd0\xcf\x11\xe0"
_PACKED = b"PK"
_DAMAGED = "the workbook is damaged, or is not one"
_SAVE = "Open it in a spreadsheet and save it again as .xlsx, or as CSV UTF-8."


def workbook_file(name: str, raw: bytes, sheet: str | None) -> RawFile:
    """Read a workbook.

    Parameters
    ----------
    name : str
        Name of the file.
    raw : bytes
        What it holds.
    sheet : str or None
        The sheet to read; ``None`` for the first.

    Raises
    ------
    RefusedError
        If it cannot be opened, is too large, lacks the sheet, or if a formula of the sheet holds
        no value.
    """
    _check_packing(raw)
    values, formulas = _opened(raw, values=True), _opened(raw, values=False)
    chosen = _chosen(values, sheet)
    _check_size(values.worksheets)
    lead, table = _table(name, chosen)
    _check_formulas(chosen, formulas[chosen.title])
    others = tuple(_table(name, one)[1] for one in values.worksheets if one is not chosen)
    return RawFile(table, others, (*lead, *_remarks(values, chosen)))


def _check_packing(raw: bytes) -> None:
    if raw.startswith(_OLD):
        message = "the workbook is protected by a password, or is of the old kind .xls"
        raise RefusedError(message, "Save a copy without a password as .xlsx, or as CSV UTF-8.")
    if not raw.startswith(_PACKED):
        raise RefusedError(_DAMAGED, _SAVE)
    try:
        with ZipFile(BytesIO(raw)) as packed:
            parts = packed.infolist()
            if sum(part.file_size for part in parts) > MOST_BYTES:
                raise RefusedError(
                    f"the workbook unpacks to more than {MOST_BYTES // 1_000_000} MB",
                    "Save the sheet of cases alone as a new workbook, or as CSV UTF-8.",
                )
            # No spreadsheet writes a document type; entities in one could unpack without end.
            if any(b"<!DOCTYPE" in packed.read(part) for part in parts):
                raise RefusedError(_DAMAGED, _SAVE)
    except RefusedError:
        raise
    except Exception as error:
        # A damaged package may raise anything from within the library.
        raise RefusedError(_DAMAGED, _SAVE) from error


def _opened(raw: bytes, *, values: bool) -> "Workbook":
    from openpyxl import load_workbook

    try:
        # What it warns of (charts, styles, checks of entry) is not read here.
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            return load_workbook(BytesIO(raw), data_only=values)
    except Exception as error:
        # A damaged part may raise anything at all from within the library.
        raise RefusedError(_DAMAGED, _SAVE) from error


def _chosen(book: "Workbook", sheet: str | None) -> "Worksheet":
    titles = [one.title for one in book.worksheets]
    if not titles:
        raise RefusedError("the workbook holds no sheet of cells", "Give one with a table.")
    if sheet is not None and sheet not in titles:
        raise RefusedError(f"the workbook has no sheet '{sheet}'", nearest(sheet, titles))
    return book.worksheets[0 if sheet is None else titles.index(sheet)]


def _check_size(sheets: Sequence["Worksheet"]) -> None:
    """Refuse what one forgotten cell in the last row would make of a table, or of many."""
    cells = 0
    for sheet in sheets:
        cells += sheet.max_row * sheet.max_column
        if sheet.max_row > MOST_ROWS + 1 or cells > MOST_CELLS:
            message = f"the sheet '{sheet.title}' reaches to row {sheet.max_row:,}, "
            message += f"column {sheet.max_column:,}, which is too far"
            cure = "Delete the empty rows and columns round the table, or give the cases alone."
            raise RefusedError(message, cure)


def _table(name: str, sheet: "Worksheet") -> tuple[tuple[str, ...], RawTable]:
    """Return the remarks above the headings, and the table."""
    rows = [
        RawRow(number, tuple(map(_value, cells)))
        for number, cells in enumerate(sheet.iter_rows(values_only=True), 1)
    ]
    filled = [row for row in rows if any(cell is not None for cell in row.cells)]
    lead: list[str] = []
    while filled and _is_remark(filled[0]):
        lead += [str(cell) for cell in filled.pop(0).cells if cell is not None]
    if not filled:
        return tuple(lead), RawTable(name, sheet.title, (), ())
    heading, *rest = filled
    headings = tuple("" if cell is None else str(cell) for cell in heading.cells)
    return tuple(lead), RawTable(name, sheet.title, headings, tuple(rest), heading.number)


def _value(value: Any) -> RawValue:
    if isinstance(value, str):
        return value.strip() or None
    return value  # type: ignore[no-any-return]


def _is_remark(row: RawRow) -> bool:
    first = row.cells[0]
    return isinstance(first, str) and first.startswith(COMMENT)


def _check_formulas(values: "Worksheet", formulas: "Worksheet") -> None:
    for row in formulas.iter_rows():
        for cell in row:
            if cell.data_type == "f" and values[cell.coordinate].value is None:
                raise RefusedError(
                    f"cell {cell.coordinate} holds a formula and no value",
                    "Open the workbook in a spreadsheet, let it calculate, and save it.",
                    cell.row or 0,
                )


def _remarks(book: "Workbook", chosen: "Worksheet") -> Iterator[str]:
    about = book.properties
    for text in (about.title, about.subject, about.description, about.keywords, about.category):
        if text:
            yield str(text)
    for sheet in book.worksheets:
        yield f"sheet {sheet.title}" + ("" if sheet.sheet_state == "visible" else ", hidden")
        for row in sheet.iter_rows():
            for cell in row:
                if cell.comment is not None:
                    yield str(cell.comment.text)
    hidden = [name for name, one in chosen.column_dimensions.items() if one.hidden]
    yield from (f"hidden column {name}" for name in hidden)
