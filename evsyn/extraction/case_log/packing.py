"""What the workbook of a log may hold: cells, and nothing that keeps more than its cells show."""

from evsyn.extraction import workbook_package
from evsyn.extraction.case_log.refused import RefusedError
from evsyn.extraction.workbook_package import PackageError, Unfit

#: Bytes of a workbook, packed and unpacked: a log of cases needs a hundredth of it.
MOST_BYTES = 20_000_000
DAMAGED = workbook_package.DAMAGED
SAVE = "Open it in a spreadsheet and save it again as .xlsx, or as CSV UTF-8."
_CURES = {
    Unfit.OLD: "Save a copy without a password as .xlsx, or as CSV UTF-8.",
    Unfit.DAMAGED: SAVE,
    Unfit.LARGE: "Save the sheet of cases alone as a new workbook, or as CSV UTF-8.",
    Unfit.BEYOND: "Copy the cells of the log alone, as values, into a new workbook, or save the "
    "sheet as CSV UTF-8.",
}
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
    try:
        workbook_package.check_package(raw, _BEYOND_CELLS, MOST_BYTES)
    except PackageError as error:
        raise RefusedError(error.message, _CURES[error.why]) from error
