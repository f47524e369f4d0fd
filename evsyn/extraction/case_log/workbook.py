"""Read a workbook into tables: the one that is asked for, and all that stands beside it."""

import warnings
from collections.abc import Iterator, Sequence
from io import BytesIO
from typing import TYPE_CHECKING, Any

from evsyn.extraction.case_log.beside import remarks_beside
from evsyn.extraction.case_log.csv_table import COMMENT, MOST_ROWS
from evsyn.extraction.case_log.packing import DAMAGED, SAVE, check_package
from evsyn.extraction.case_log.raw_table import RawFile, RawRow, RawTable, RawValue, Remark
from evsyn.extraction.case_log.refused import RefusedError, rows_words

if TYPE_CHECKING:
    from openpyxl.workbook import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

MOST_CELLS = 1_000_000


def workbook_file(name: str, raw: bytes, sheet: str | None) -> RawFile:
    """Read a workbook.

    Parameters
    ----------
    name : str
        Name of the file.
    raw : bytes
        What it holds.
    sheet : str or None
        The sheet to read; ``None`` for the first that is not hidden.

    Raises
    ------
    RefusedError
        If it cannot be opened, is too large, holds more than cells, or lacks the sheet. No name of
        a sheet is told, since none has been screened yet.
    """
    check_package(raw)
    values, formulas = _opened(raw, values=True), _opened(raw, values=False)
    chosen = _chosen(values, sheet)
    _check_size(values.worksheets)
    lead, table = _table(name, chosen)
    others = [one for one in values.worksheets if one is not chosen]
    places = {one.title: f" of sheet {n} of the others" for n, one in enumerate(others, 1)}
    beside = remarks_beside(values, formulas, {**places, chosen.title: ""})
    read = (_table(name, one) for one in others)
    told = [(remarks, other) for remarks, other in read]
    above = [
        Remark(f"{remark.where}{places[other.sheet]}", remark.text)
        for remarks, other in told
        for remark in remarks
    ]
    return RawFile(
        table,
        tuple(other for _, other in told),
        (*lead, *above, *beside),
        (*_without_value(chosen, formulas[chosen.title]), *_hidden_rows(chosen, table)),
    )


def _opened(raw: bytes, *, values: bool) -> "Workbook":
    from openpyxl import load_workbook

    try:
        # What it warns of (charts, styles, checks of entry) is not read here.
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            return load_workbook(BytesIO(raw), data_only=values)
    except Exception as error:
        # A damaged part may raise anything at all from within the library.
        raise RefusedError(DAMAGED, SAVE) from error


def _chosen(book: "Workbook", sheet: str | None) -> "Worksheet":
    sheets = book.worksheets
    shown = [one for one in sheets if one.sheet_state == "visible"]
    if not shown:
        raise RefusedError("the workbook holds no sheet of cells", "Give one with a table.")
    if sheet is None:
        return shown[0]
    named = [one for one in sheets if one.title == sheet]
    if not named:
        cure = f"Compare the names of its {len(sheets)} sheets; without 'sheet' the first is read."
        raise RefusedError(f"the workbook has no sheet '{sheet}'", cure)
    return named[0]


def _check_size(sheets: Sequence["Worksheet"]) -> None:
    """Refuse what one forgotten cell in the last row would make of a table, or of many."""
    cells = 0
    for place, sheet in enumerate(sheets, 1):
        cells += sheet.max_row * sheet.max_column
        if sheet.max_row > MOST_ROWS + 1 or cells > MOST_CELLS:
            message = f"sheet {place} of the workbook reaches to row {sheet.max_row:,}, "
            message += f"column {sheet.max_column:,}, which is too far"
            cure = "Delete the empty rows and columns round the table, or give the cases alone."
            raise RefusedError(message, cure)


def _table(name: str, sheet: "Worksheet") -> tuple[tuple[Remark, ...], RawTable]:
    """Return the remarks above the headings, and the table."""
    rows = [
        RawRow(number, tuple(map(_value, cells)))
        for number, cells in enumerate(sheet.iter_rows(values_only=True), 1)
    ]
    filled = [row for row in rows if any(cell is not None for cell in row.cells)]
    lead: list[Remark] = []
    while filled and _is_remark(filled[0]):
        row = filled.pop(0)
        lead += [Remark(f"row {row.number}", str(cell)) for cell in row.cells if cell is not None]
    if not filled:
        return tuple(lead), RawTable(name, sheet.title, (), ())
    heading, *rest = filled
    headings = tuple("" if cell is None else str(cell) for cell in heading.cells)
    hidden = frozenset(_hidden_columns(sheet))
    table = RawTable(name, sheet.title, headings, tuple(rest), heading.number, hidden)
    return tuple(lead), table


def _hidden_columns(sheet: "Worksheet") -> Iterator[int]:
    # Neighbours that are hidden together stand under the letter of the first.
    for one in sheet.column_dimensions.values():
        if one.hidden and one.min is not None and one.max is not None:
            yield from range(one.min - 1, one.max)


def _value(value: Any) -> RawValue:
    if isinstance(value, str):
        return value.strip() or None
    return value  # type: ignore[no-any-return]


def _is_remark(row: RawRow) -> bool:
    first = row.cells[0]
    return isinstance(first, str) and first.startswith(COMMENT)


def _without_value(values: "Worksheet", formulas: "Worksheet") -> Iterator[RefusedError]:
    empty = [
        cell
        for row in formulas.iter_rows()
        for cell in row
        if cell.data_type == "f" and values[cell.coordinate].value is None
    ]
    if empty:
        more = f" and {len(empty) - 1} more hold formulas" if len(empty) > 1 else " holds a formula"
        message = f"cell {empty[0].coordinate}{more} and no value"
        cure = "Open the workbook in a spreadsheet, let it calculate, and save it."
        yield RefusedError(message, cure, empty[0].row or 0)


def _hidden_rows(sheet: "Worksheet", table: RawTable) -> Iterator[RefusedError]:
    """Yield why rows that nobody sees are not counted: a filter may have been left on."""
    filled = (table.heading_row, *(row.number for row in table.rows))
    hidden = [n for n in filled if n in sheet.row_dimensions and sheet.row_dimensions[n].hidden]
    if hidden:
        message = f"{rows_words(hidden)}: hidden, so that what is seen is not what is counted"
        yield RefusedError(message, "Show the rows, or delete them.", hidden[0])
