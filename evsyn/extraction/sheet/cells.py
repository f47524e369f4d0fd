"""What one cell says, by the kind of its column."""

import math
import re
from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Any

from pydantic import TypeAdapter, ValidationError

from evsyn.extraction.record import Day, Month
from evsyn.extraction.sheet.column import Column, Kind
from evsyn.extraction.sheet.opened import RawCell
from evsyn.extraction.sheet.pick_lists import NO, YES
from evsyn.extraction.sheet.values import Shown, one_line_end
from evsyn.extraction.starting.dates import is_two_ways, plain_date

_YES = {"yes", "y", "true", "1"}
_NO = {"no", "n", "false", "0"}
_PERCENT = re.compile(r"^0(?:\.(0+))?\s?%$")
_MIDNIGHT = time()
_DIGITS = "Give digits alone, as 1050."
_DAY: TypeAdapter[str] = TypeAdapter(Day)
_MONTH: TypeAdapter[str] = TypeAdapter(Month)


@dataclass(frozen=True, slots=True)
class Said:
    """What a cell says: the value, and what is wrong or doubtful about it.

    Parameters
    ----------
    value : str, int or None
        As ``make`` would write it; ``None`` for an empty cell and for one that cannot be read.
    wrong, doubtful : tuple of str
        Empty, or what is the matter and what to do.
    """

    value: Shown
    wrong: tuple[str, str] | tuple[()] = ()
    doubtful: tuple[str, str] | tuple[()] = ()


def said(column: Column, cell: RawCell) -> Said:
    """Return what a cell of a column says."""
    if cell.is_error:
        return Said(None, (f"the cell holds the error {cell.value}", "Type what it should hold."))
    if cell.is_formula and cell.value is None:
        cure = "Open the workbook in a spreadsheet, let it calculate, and save it; or type it."
        return Said(None, ("the cell holds a formula and no value", cure))
    found = _of_kind(column, cell.value, cell.shape)
    if cell.is_formula and not found.wrong:
        message = f"the cell holds a formula; its value '{found.value}' was read"
        return Said(found.value, (), (message, "Type the value if it is one the paper prints."))
    return found


def _of_kind(column: Column, value: Any, shape: str) -> Said:
    if isinstance(value, str):
        value = one_line_end(value).strip()
        if not value:
            return Said(None)
    if column.kind is Kind.WHOLE:
        return _whole(column, value, shape)
    if column.kind is Kind.YES_NO:
        return _yes_no(column, value)
    if isinstance(value, (datetime, date)):
        return _date(column, value, shape)
    if isinstance(value, bool):
        return Said(YES if value else NO)
    if isinstance(value, (int, float)):
        number = _number(value, shape)
        is_date = column.kind in (Kind.DAY, Kind.MONTH) and number.value is not None
        return _typed_date(column, str(number.value)) if is_date else number
    if isinstance(value, str):
        return _typed_date(column, value) if column.kind in (Kind.DAY, Kind.MONTH) else Said(value)
    return Said(None, (f"'{column.heading}' holds {value}, a time", "Type it as text."))


def _whole(column: Column, value: Any, shape: str) -> Said:
    if isinstance(value, str) and re.fullmatch(r"[0-9]{1,15}", value):
        return Said(int(value))
    is_number = isinstance(value, (int, float)) and not isinstance(value, bool)
    # A whole number under a percent sign is 100% or more, and no count.
    if is_number and math.isfinite(value) and value == int(value) and "%" not in shape:
        return Said(int(value))
    message = f"'{column.heading}' must be a whole number, and is '{value}'"
    is_percentage = "%" in shape or "%" in str(value)
    cure = "Give digits alone, and the percentage under 'printed'." if is_percentage else _DIGITS
    return Said(None, (message, cure))


def _yes_no(column: Column, value: Any) -> Said:
    text = str(value).casefold()
    if text in _YES | _NO:
        return Said(YES if text in _YES else NO)
    return Said(None, (f"'{column.heading}' must be yes or no, and is '{value}'", "Pick one."))


def _date(column: Column, value: date, shape: str) -> Said:
    if column.kind not in (Kind.DAY, Kind.MONTH):
        message = f"'{column.heading}' holds a date, {value:%Y-%m-%d}: a spreadsheet may have made "
        return Said(None, (f"{message}it of what was typed", "Format the cell as text; type anew."))
    if isinstance(value, datetime) and value.time() != _MIDNIGHT:
        return Said(None, (f"'{column.heading}' holds a time of day", "Type the date alone."))
    letters = re.sub(r'"[^"]*"|\[[^\]]*\]|\\.', "", shape).casefold()
    if column.kind is Kind.MONTH and "d" not in letters and value.day == 1:
        return Said(f"{value:%Y-%m}" if "m" in letters else f"{value:%Y}")
    return Said(f"{value:%Y-%m-%d}")


def _typed_date(column: Column, text: str) -> Said:
    """Return a day or month that was typed as text, where one reading alone is possible."""
    written = plain_date(text)
    kind = "day" if column.kind is Kind.DAY else "year, month or day"
    try:
        (_DAY if column.kind is Kind.DAY else _MONTH).validate_python(written)
    except ValidationError:
        message = f"'{column.heading}' holds '{text}', which is no {kind} of the calendar"
        if is_two_ways(text):
            message = f"'{column.heading}' holds '{text}', a date that can be read in two ways"
        example = "2026-11-25" if column.kind is Kind.DAY else "2015, 2015-03 or March 2015"
        return Said(None, (message, f"Write it as {example}."))
    return Said(written)


def _number(value: float, shape: str) -> Said:
    value = float(value)
    percent = _PERCENT.match(shape)
    if percent is None:
        return Said(str(int(value)) if value.is_integer() else repr(value))
    decimals = len(percent[1] or "")
    seen = f"{100 * value:.{decimals}f}%"
    exact = f"{100 * value:.10f}".rstrip("0").rstrip(".") + "%"
    if seen == exact:
        return Said(seen)
    message = f"the cell shows {seen} and holds {exact}; {seen} was read"
    return Said(seen, (), (message, "Format the cell as text, and type it as the paper prints it."))
