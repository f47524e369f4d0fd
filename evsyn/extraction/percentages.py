"""Whether a printed percentage can come from a count.

A whole number over a whole number can give only certain percentages. Source of the idea: Brown
NJL, Heathers JAJ. Soc Psychol Personal Sci 2017;8:363-369. Arithmetic is in whole numbers, so that
a tie is a tie; rounding half up and half to even are both honoured, and truncation is told apart.
"""

import re
from decimal import Decimal
from enum import StrEnum

MAX_DIGITS = 30
_PERCENT = re.compile(r"([0-9]+(?:[.,·][0-9]+)?)\s*(?:%|per\s?cent)")
_BARE = re.compile(r"\s*([0-9]+(?:[.,·][0-9]+)?)\s*")


class Fit(StrEnum):
    """How a printed percentage sits with a count."""

    ROUNDED = "rounded"
    TRUNCATED = "truncated"
    IMPOSSIBLE = "impossible"
    UNREAD = "unread"


def printed_percentage(text: str) -> Decimal | None:
    """Return the percentage in a printed text, with its decimals, or ``None``.

    Examples
    --------
    >>> printed_percentage("4 (7.70%)")
    Decimal('7.70')
    """
    match = _PERCENT.search(text) or _BARE.fullmatch(text)
    if match is None or len(match.group(1)) > MAX_DIGITS:
        return None
    return Decimal(match.group(1).replace(",", ".").replace("·", "."))


def fit_of(events: int, total: int, printed: str) -> Fit:
    """Tell whether ``events`` of ``total`` can be printed as ``printed``.

    Parameters
    ----------
    events, total : int
        The count.
    printed : str
        The percentage as printed, as ``"7.7%"``.
    """
    wanted = printed_percentage(printed)
    if wanted is None:
        return Fit.UNREAD
    last, decimals = _last_digits(wanted)
    whole, rest = divmod(100 * events * 10**decimals, total)
    half_up = whole + (2 * rest >= total)
    half_even = whole + (2 * rest > total or (2 * rest == total and whole % 2))
    if last in {half_up, half_even}:
        return Fit.ROUNDED
    return Fit.TRUNCATED if last == whole else Fit.IMPOSSIBLE


def counts_that_fit(total: int, printed: str) -> range:
    """Return every count over ``total`` that rounds to ``printed``: a run of whole numbers.

    Parameters
    ----------
    total : int
        The denominator.
    printed : str
        The percentage as printed.
    """
    wanted = printed_percentage(printed)
    if wanted is None:
        return range(0)
    last, decimals = _last_digits(wanted)
    # A count rounds to the last printed digit if 100 * events * 10**decimals / total lies
    # within half a unit of it; at the upper tie only rounding half to even can reach it.
    step = 200 * 10**decimals
    low = max(0, -(-(2 * last - 1) * total // step))
    high = min(total, (2 * last + 1) * total // step)
    if last % 2 and high * step == (2 * last + 1) * total:
        high -= 1
    return range(low, high + 1)


def _last_digits(wanted: Decimal) -> tuple[int, int]:
    """Return a percentage as a whole number of its last printed unit, and its decimals."""
    _, digits, exponent = wanted.as_tuple()
    return int("".join(map(str, digits))), -int(exponent)
