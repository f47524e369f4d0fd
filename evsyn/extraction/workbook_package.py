"""A workbook is a package of parts: may it be opened, and does it hold more than is wanted."""

from collections.abc import Iterable, Mapping
from enum import StrEnum
from io import BytesIO
from zipfile import ZipFile

_OLD = b"\xd0\xcf\x11\xe0"
_PACKED = b"PK"
DAMAGED = "the workbook is damaged, or is not one"


class Unfit(StrEnum):
    """Why a workbook is not opened."""

    OLD = "old"
    DAMAGED = "damaged"
    LARGE = "large"
    BEYOND = "beyond"


class PackageError(Exception):
    """Raised for a workbook that is not opened; says why, and in words what is wrong."""

    def __init__(self, why: Unfit, message: str) -> None:
        super().__init__(message)
        self.why, self.message = why, message


def check_package(raw: bytes, beyond: Mapping[str, str], most_bytes: int) -> None:
    """Refuse what is no workbook, cannot be opened in little space, or holds what is not wanted.

    Parameters
    ----------
    raw : bytes
        The file.
    beyond : mapping of str to str
        Parts that are refused: how their names begin, in small letters, and what they are.
    most_bytes : int
        Bytes it may unpack to.

    Raises
    ------
    PackageError
        With the reason in words.
    """
    if raw.startswith(_OLD):
        message = "the workbook is protected by a password, or is of the old kind .xls"
        raise PackageError(Unfit.OLD, message)
    if not raw.startswith(_PACKED):
        raise PackageError(Unfit.DAMAGED, DAMAGED)
    try:
        with ZipFile(BytesIO(raw)) as packed:
            parts = packed.infolist()
            if sum(part.file_size for part in parts) > most_bytes:
                message = f"the workbook unpacks to more than {most_bytes // 1_000_000} MB"
                raise PackageError(Unfit.LARGE, message)
            # No spreadsheet writes a document type; entities in one could unpack without end.
            if any(b"<!DOCTYPE" in packed.read(part) for part in parts):
                raise PackageError(Unfit.DAMAGED, DAMAGED)
            _check_parts((part.filename for part in parts), beyond)
    except PackageError:
        raise
    except Exception as error:
        # A damaged package may raise anything from within the library.
        raise PackageError(Unfit.DAMAGED, DAMAGED) from error


def _check_parts(names: Iterable[str], beyond: Mapping[str, str]) -> None:
    written = [name.lower().lstrip("/") for name in names]
    for beginning, what in beyond.items():
        if any(name.startswith(beginning) for name in written):
            raise PackageError(Unfit.BEYOND, f"the workbook holds more than cells: {what}")
