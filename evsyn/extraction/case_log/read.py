"""Read the file of a log, whatever its kind."""

from pathlib import Path

from evsyn.extraction.case_log.csv_table import csv_file
from evsyn.extraction.case_log.packing import MOST_BYTES
from evsyn.extraction.case_log.raw_table import RawFile
from evsyn.extraction.case_log.refused import RefusedError
from evsyn.extraction.case_log.workbook import workbook_file

_CSV, _WORKBOOK = ".csv", ".xlsx"
_OTHER = {
    ".xls": "an old workbook",
    ".xlsm": "a workbook with macros",
    ".xlsb": "a binary workbook",
    ".ods": "an OpenDocument sheet",
}
_NOT_TEXT = (b"PK", b"\xd0\xcf\x11\xe0")


def read_log(folder: Path, name: str, sheet: str | None = None) -> RawFile:
    """Read a log, understanding nothing of it.

    Parameters
    ----------
    folder : pathlib.Path
        Folder of the unit file.
    name : str
        Name of the log, beside the unit file.
    sheet : str or None
        Sheet of a workbook; ``None`` for the first.

    Raises
    ------
    RefusedError
        If it cannot be read; the reason is in words.
    """
    path = folder / name
    if Path(name).name != name or "\\" in name:
        raise RefusedError("the log must lie beside the unit file", "Give its name alone.")
    ending = path.suffix.lower()
    if ending in _OTHER:
        message = f"{_OTHER[ending]} ({ending}) is not read"
        raise RefusedError(message, "Save it as .xlsx, or as CSV UTF-8.")
    if ending not in (_CSV, _WORKBOOK):
        raise RefusedError("the log is neither .csv nor .xlsx", "Save it as one of the two.")
    if sheet is not None and ending == _CSV:
        raise RefusedError("a CSV file has no sheets", "Take out 'sheet'.")
    raw = _bytes_of(path)
    if ending == _WORKBOOK:
        return workbook_file(name, raw, sheet)
    if raw.startswith(_NOT_TEXT):
        raise RefusedError("this is a workbook, named .csv", "Rename it to .xlsx.")
    return csv_file(name, raw)


def _bytes_of(path: Path) -> bytes:
    try:
        if path.stat().st_size > MOST_BYTES:
            message = f"the log is larger than {MOST_BYTES // 1_000_000} MB"
            raise RefusedError(message, "Give a log of cases alone, without pictures.")
        return path.read_bytes()
    except FileNotFoundError as error:
        raise RefusedError("the log is missing", "Put it beside the unit file.") from error
    except (OSError, ValueError) as error:
        raise RefusedError("the log cannot be opened", "Check who may read it.") from error
