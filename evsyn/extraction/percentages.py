"""Whether a printed percentage can come from a count.

A whole number over a whole number can give only certain percentages. Source of the idea: Brown
NJL, Heathers JAJ. Soc Psychol Personal Sci 2017;8:363-369. Arithmetic is decimal, so that a tie
is a tie; rounding half up and half to even are both honoured, and truncation is told apart.
"""

import re
from decimal import ROUND_DOWN, ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal
from enum import StrEnum

_PERCENT = re.compile(r"(\d+(?:[.,·]\d+)?)\s*(?:%|per\s?cent)")
_BARE = re.compile(r"\s*(\d+(?:[.,·]\d+)?)\s*")


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
    if match is None:
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
    exact = Decimal(100) * events / total
    unit = Decimal(1).scaleb(int(wanted.as_tuple().exponent))
    if wanted in {exact.quantize(unit, rule) for rule in (ROUND_HALF_UP, ROUND_HALF_EVEN)}:
        return Fit.ROUNDED
    if wanted == exact.quantize(unit, ROUND_DOWN):
        return Fit.TRUNCATED
    return Fit.IMPOSSIBLE


def counts_that_fit(total: int, printed: str) -> list[int]:
    """Return every count over ``total`` that rounds to ``printed``."""
    wanted = printed_percentage(printed)
    if wanted is None:
        return []
    near = int(wanted * total / 100)
    tried = range(max(0, near - 2), min(total, near + 3) + 1)
    decimals = -int(wanted.as_tuple().exponent)
    if total > 10 ** (decimals + 2):
        spread = total // 10 ** (decimals + 2) + 2
        tried = range(max(0, near - spread), min(total, near + spread) + 1)
    return [events for events in tried if fit_of(events, total, printed) is Fit.ROUNDED]
