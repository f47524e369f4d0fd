"""A workbook is a package of parts: may it be opened, and does it hold more than cells."""

from collections.abc import Iterable
from io import BytesIO
from zipfile import ZipFile

from evsyn.extraction.case_log.refused import RefusedError

#: Bytes of a workbook, packed and unpacked: a log of cases needs a hundredth of it.
MOST_BYTES = 20_000_000
DAMAGED = "the workbook is damaged, or is not one"
SAVE = "Open it in a spreadsheet and save it again as .xlsx, or as CSV UTF-8."
_OLD = b"\xd0\xcf\x11\xe0"
_PACKED = b"PK"
#: Parts that keep what no cell shows, rows of a deleted sheet included, by how their names begin
#: (ECMA-376 part 1, and the parts that spreadsheets add; names from memory).
_BEYOND_CELLS = {
    "xl/vbaproject": "macros",
    "xl/macrosheets": "macros",
    "xl/pivotcache": "a pivot table, which keeps rows of its own",
    "xl/pivottables": "a pivot table, which keeps rows of its own",
    "xl/externallinks": "links to other files, which keep values of theirs",
    "xl/connections": "a connection to other data",
    "xl/querytables": "a connection to other data",
    "xl/model": "a data model, which keeps rows of its own",
    "xl/charts": "charts, which keep values of their own",
    "xl/drawings/drawing": "pictures, charts or boxes of text",
    "xl/media": "pictures",
    "xl/embeddings": "other files inside it",
    "xl/activex": "other programs inside it",
}


def check_package(raw: bytes) -> None:
    """Refuse what is no workbook, cannot be opened in little space, or holds more than cells.

    Raises
    ------
    RefusedError
        With the reason in words.
    """
    if raw.startswith(_OLD):
        message = "the workbook is protected by a password, or is of the old kind .xls"
        raise RefusedError(message, "Save a copy without a password as .xlsx, or as CSV UTF-8.")
    if not raw.startswith(_PACKED):
        raise RefusedError(DAMAGED, SAVE)
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
                raise RefusedError(DAMAGED, SAVE)
            _check_parts(part.filename for part in parts)
    except RefusedError:
        raise
    except Exception as error:
        # A damaged package may raise anything from within the library.
        raise RefusedError(DAMAGED, SAVE) from error


def _check_parts(names: Iterable[str]) -> None:
    written = [name.lower().lstrip("/") for name in names]
    for beginning, what in _BEYOND_CELLS.items():
        if any(name.startswith(beginning) for name in written):
            message = f"the workbook holds more than cells: {what}"
            cure = "Copy the cells of the log alone, as values, into a new workbook, or save the "
            raise RefusedError(message, f"{cure}sheet as CSV UTF-8.")
