"""The numbers a sentence may hold: a share with its decimals, a range, a count, a side."""

import re
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction


class Form(StrEnum):
    """How a number is written."""

    PERCENT = "percent"
    ONE_IN = "one_in"
    RANGE = "range"
    COUNT = "count"


class Side(StrEnum):
    """On which side of a number a rate lies."""

    BELOW = "below"
    ABOVE = "above"


@dataclass(frozen=True, slots=True)
class Amount:
    """A number as a speaker gives it.

    Parameters
    ----------
    form : Form
        How it is written.
    written : str
        The number as written, without its side.
    low, high : Fraction
        Its value as a proportion; the same but for a range.
    side : Side or None
        ``below`` or ``above``, where that stands before it.
    events, total : int or None
        Both numbers of a count, and of ``1 in 20``.
    """

    form: Form
    written: str
    low: Fraction
    high: Fraction
    side: Side | None = None
    events: int | None = None
    total: int | None = None


_SIDE = re.compile(r"(below|under|less than|above|over|more than)\s+(.*)")
_SIDES = {"below": Side.BELOW, "under": Side.BELOW, "less than": Side.BELOW}
_NUMBER = r"([0-9]{1,3}(?:[.,·][0-9]{1,9})?)"
_PERCENT = re.compile(rf"{_NUMBER}\s*%")
_RANGE = re.compile(rf"{_NUMBER}\s*%?\s*(?:-|–|to)\s*{_NUMBER}\s*%")
_WHOLE = r"([0-9]{1,9}|[0-9]{1,3}(?:,[0-9]{3})+)"
_ONE_IN = re.compile(rf"{_WHOLE}\s+in\s+{_WHOLE}")
_COUNT = re.compile(rf"{_WHOLE}\s*(?:of|/)\s*{_WHOLE}")

#: What a value may look like, for the sentence that refuses one.
EXAMPLES = "'7.4%', '1 in 20', '2-8%' or '3 of 41'"


def amount(text: str) -> Amount | None:
    """Return the number a text holds, or ``None`` where it holds none that can be weighed.

    Parameters
    ----------
    text : str
        As written in the file, as ``7.4%``, ``1 in 20``, ``2-8%``, ``3 of 41``, ``below 5%``.

    Examples
    --------
    >>> amount("below 7.40%").written, amount("1 in 20").low
    ('7.40%', Fraction(1, 20))
    """
    said = " ".join(text.split())
    side = None
    if match := _SIDE.fullmatch(said):
        side, said = _SIDES.get(match[1], Side.ABOVE), match[2]
    found = _share(said, side) or _ratio(said, side)
    return found if found is not None and 0 <= found.low <= found.high <= 1 else None


def series_wanted(text: str) -> tuple[int, int | None] | None:
    """Return how many series a text asks for, and of how many where it says so.

    Examples
    --------
    >>> series_wanted("12 of 15"), series_wanted("12")
    ((12, 15), (12, None))
    """
    if match := _COUNT.fullmatch(text):
        few, many = _whole(match[1]), _whole(match[2])
        return (few, many) if 1 <= few <= many else None
    return (int(text), None) if re.fullmatch(r"[1-9][0-9]{0,3}", text) else None


def _share(said: str, side: Side | None) -> Amount | None:
    if match := _PERCENT.fullmatch(said):
        value = _percent(match[1])
        return Amount(Form.PERCENT, said, value, value, side)
    if (match := _RANGE.fullmatch(said)) and side is None:
        return Amount(Form.RANGE, said, _percent(match[1]), _percent(match[2]))
    return None


def _ratio(said: str, side: Side | None) -> Amount | None:
    for pattern, form in ((_ONE_IN, Form.ONE_IN), (_COUNT, Form.COUNT)):
        match = pattern.fullmatch(said)
        if match is None or (form is Form.COUNT and side is not None):
            continue
        events, total = _whole(match[1]), _whole(match[2])
        if total:
            value = Fraction(events, total)
            return Amount(form, said, value, value, side, events, total)
    return None


def _percent(digits: str) -> Fraction:
    return Fraction(Decimal(digits.replace(",", ".").replace("·", "."))) / 100


def _whole(digits: str) -> int:
    return int(digits.replace(",", ""))
