"""Frozen records as plain data for JSON; what does not exist is ``None``."""

from dataclasses import fields, is_dataclass
from enum import StrEnum

from evsyn.cells.cell import Question


def plain(value: object) -> object:
    """Return a record, with all records inside it, as plain data; a question as its key."""
    if isinstance(value, Question):
        return value.key
    if isinstance(value, StrEnum):
        return str(value)
    if is_dataclass(value) and not isinstance(value, type):
        return {field.name: plain(getattr(value, field.name)) for field in fields(value)}
    if isinstance(value, tuple):
        return [plain(item) for item in value]
    return value
