"""A number as a paper prints it: its decimals count, and so does a ``<`` before it."""

import math
import re
from dataclasses import dataclass

_PRINTED = re.compile(r"([<>≤≥=]?)\s*([-+−–]?)\s*([0-9]*(?:[.,·][0-9]+)?)\s*(%?)")
#: A tie between two roundings may fall either way, and floating point may fall beside it.
_SLACK = 1e-9


@dataclass(frozen=True, slots=True)
class PrintedNumber:
    """A printed number: its value, half a unit of its last decimal, and the mark before it.

    Parameters
    ----------
    text : str
        As printed.
    value, half : float
        The value, and half a unit of the last decimal printed.
    mark : str
        ``<`` or ``>`` where the paper gives a bound, else empty.
    percent : bool
        Whether a percentage sign stands behind it.
    """

    text: str
    value: float
    half: float
    mark: str = ""
    percent: bool = False

    @property
    def low(self) -> float:
        """Smallest value that is printed so."""
        return -math.inf if self.mark == "<" else self.value - self.half * (not self.mark)

    @property
    def high(self) -> float:
        """Largest value that is printed so."""
        return math.inf if self.mark == ">" else self.value + self.half * (not self.mark)

    def holds(self, low: float, high: float) -> bool:
        """Tell whether some value from ``low`` to ``high`` would be printed so."""
        slack = _SLACK * max(1.0, abs(self.value)) * (not self.mark)
        return low <= self.high + slack and high >= self.low - slack


def printed_number(text: str) -> PrintedNumber:
    """Read a printed number; a decimal comma, a raised dot and a long minus are honoured.

    Raises
    ------
    ValueError
        If the text is no number.

    Examples
    --------
    >>> printed_number("<0.001").mark, printed_number("−0.47").half, printed_number("12%").percent
    ('<', 0.005, True)
    """
    found = _PRINTED.fullmatch(text.strip())
    if found is None or not found.group(3):
        raise ValueError("a number as printed, as 0.56, <0.001 or 12%")
    mark, sign, digits, percent = found.groups()
    digits = digits.replace(",", ".").replace("·", ".")
    decimals = len(digits.partition(".")[2])
    value = float(f"{'-' if sign in ('-', '−', '–') and sign else ''}{digits}")
    mark = {"≤": "<", "≥": ">", "=": ""}.get(mark, mark)
    return PrintedNumber(text.strip(), value, 0.5 * 10.0**-decimals, mark, bool(percent))
