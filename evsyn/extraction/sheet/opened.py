"""Open a workbook and take its cells out, formulas as the values they last had."""

import re
import warnings
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Any

from evsyn.extraction.sheet.told import SheetError
from evsyn.extraction.workbook_package import DAMAGED, PackageError, Unfit, check_package

if TYPE_CHECKING:
    from openpyxl.workbook import Workbook

#: Bytes of a workbook, unpacked: two thousand studies need a tenth of it.
MOST_BYTES = 100_000_000
MOST_ROWS = 100_000
#: Parts that run or call on something else, by how their names begin (ECMA-376 part 1, and the
#: parts that spreadsheets add; names from memory).
_BEYOND_CELLS = {
    "xl/vbaproject": "macros",
    "xl/macrosheets": "macros",
    "xl/externallinks": "links to other files",
    "xl/connections": "a connection to other data",
    "xl/querytables": "a connection to other data",
    "xl/embeddings": "other files inside it",
    "xl/activex": "other programs inside it",
}
_SAVE = "Open it in a spreadsheet and save it as .xlsx."
_CURES = {
    Unfit.OLD: "Save a copy without a password as .xlsx.",
    Unfit.DAMAGED: _SAVE,
    Unfit.LARGE: "Save the sheets of the review alone as a new workbook.",
    Unfit.BEYOND: "Copy the cells, as values, into a workbook made anew by 'evsyn sheet make'.",
}
#: A formula that reaches another file ([1]Sheet!A1), another program (name|topic!item) or the net.
_REACHES_OUT = re.compile(
    r"\[\d+\]|\[[^\]]+\.\w+\]|\w\|'?[^|]*'?!|\bWEBSERVICE\s*\(|\bRTD\s*\(", re.I
)


@dataclass(frozen=True, slots=True)
class RawCell:
    """A cell as it stands in the workbook.

    Parameters
    ----------
    value : object
        Text, number, date or truth value; ``None`` for a formula without a value.
    shape : str
        The number format it is shown in.
    is_formula, is_error : bool
        Whether it holds a formula, or an error such as ``#REF!``.
    """

    value: Any
    shape: str = "General"
    is_formula: bool = False
    is_error: bool = False


#: Cells that hold something, by row and column, counted from 1.
Grid = dict[int, dict[int, RawCell]]


def read_bytes(path: Path) -> bytes:
    """Return what a workbook file holds.

    Raises
    ------
    SheetError
        If there is none, or its name says that it holds macros or is of another kind.
    """
    if not path.is_file():
        raise SheetError("there is no such file", "Check the path.")
    ending = path.suffix.lower()
    if ending in (".xlsm", ".xltm", ".xlsb"):
        raise SheetError("the workbook may hold macros", "Save it as .xlsx, without macros.")
    if ending != ".xlsx":
        raise SheetError("the name does not end in .xlsx", _SAVE)
    return path.read_bytes()


def opened(raw: bytes, names: Iterable[str]) -> dict[str, Grid]:
    """Return the cells of some sheets, by the sheet's name.

    Raises
    ------
    SheetError
        If the workbook cannot be opened, is too large, or reaches out of itself.
    """
    try:
        check_package(raw, _BEYOND_CELLS, MOST_BYTES)
    except PackageError as error:
        raise SheetError(error.message, _CURES[error.why]) from error
    wanted = {name.casefold(): name for name in names}
    try:
        grids = _grids(raw, wanted, values=False)
        if any(cell.is_formula for cell in _cells(grids)):
            return _with_values(grids, _grids(raw, wanted, values=True))
    except SheetError:
        raise
    except Exception as error:
        # A damaged part may raise anything at all from within the library.
        raise SheetError(DAMAGED, _SAVE) from error
    return grids


def _grids(raw: bytes, wanted: dict[str, str], *, values: bool) -> dict[str, Grid]:
    from openpyxl import load_workbook

    # What it warns of (styles, checks of entry) is not read here.
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        book: Workbook = load_workbook(BytesIO(raw), data_only=values, read_only=True)
        return {
            wanted[sheet.title.casefold()]: _grid(sheet)
            for sheet in book.worksheets
            if sheet.title.casefold() in wanted
        }


def _grid(sheet: Any) -> Grid:
    # What a file says of its own size may be wrong.
    sheet.reset_dimensions()
    grid: Grid = {}
    for cells in sheet.iter_rows():
        for cell in cells:
            if cell.value is None:
                continue
            if cell.row > MOST_ROWS:
                message = f"the sheet reaches to row {cell.row:,}, which is too far"
                cure = "Delete what stands far below the table."
                raise SheetError(message, cure, f"{sheet.title}!{cell.coordinate}")
            grid.setdefault(cell.row, {})[cell.column] = _raw(cell, sheet.title)
    return grid


def _raw(cell: Any, sheet: str) -> RawCell:
    if cell.data_type != "f":
        is_text = isinstance(cell.value, str)
        shape = "@" if is_text else str(cell.number_format)
        return RawCell(cell.value, shape, is_error=cell.data_type == "e")
    written = str(getattr(cell.value, "text", None) or cell.value)
    if _REACHES_OUT.search(written):
        message = "the formula reaches for another file, another program or the net"
        cure = "Put its value in its place, or leave the cell empty."
        raise SheetError(message, cure, f"{sheet}!{cell.coordinate}")
    return RawCell(None, str(cell.number_format), is_formula=True)


def _cells(grids: dict[str, Grid]) -> Iterator[RawCell]:
    for grid in grids.values():
        for row in grid.values():
            yield from row.values()


def _with_values(formulas: dict[str, Grid], values: dict[str, Grid]) -> dict[str, Grid]:
    def with_value(name: str, row: int, column: int, cell: RawCell) -> RawCell:
        if not cell.is_formula:
            return cell
        last = values[name].get(row, {}).get(column, RawCell(None))
        return replace(cell, value=last.value, is_error=last.is_error)

    return {
        name: {
            row: {column: with_value(name, row, column, cell) for column, cell in cells.items()}
            for row, cells in grid.items()
        }
        for name, grid in formulas.items()
    }
