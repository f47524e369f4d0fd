"""Each printed number beside what a variant gives, at its own decimals."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from evsyn.reproduction.printed_number import PrintedNumber, printed_number
from evsyn.reproduction.recompute import ALSO, Numbers, Place
from evsyn.reproduction.record import PrintedLine, PublishedPooling
from evsyn.reproduction.rounding import Envelope
from evsyn.terms import Source


class Match(StrEnum):
    """How a printed number sits with a variant."""

    EXACT = "reproduced"
    ROUNDING = "within the rounding of the inputs"
    NO = "not reproduced"
    NONE = "not given by this variant"

    @property
    def fits(self) -> bool:
        """Whether the variant gives the printed number."""
        return self in (Match.EXACT, Match.ROUNDING)


@dataclass(frozen=True, slots=True)
class PrintedItem:
    """One printed number and where it stands, in the pooling and in the file."""

    place: Place
    number: PrintedNumber
    source: Source


@dataclass(frozen=True, slots=True)
class Check:
    """One printed number held against one variant.

    Parameters
    ----------
    item : PrintedItem
        What is printed.
    match : Match
        How it sits.
    found : float or None
        What the variant gives, in the unit of print.
    low, high : float or None
        What the rows, each anywhere within its rounding, can give; where that was asked.
    place : tuple of str
        The name of the number it was found under, where print may mean two.
    turned : bool
        Whether a statistic is printed with a minus that is not counted here.
    """

    item: PrintedItem
    match: Match
    found: float | None = None
    low: float | None = None
    high: float | None = None
    place: Place = ()
    turned: bool = False

    @property
    def units_off(self) -> float:
        """How many units of the last printed decimal lie between print and what is found."""
        if self.found is None:
            return float("inf")
        return abs(self.found - self.item.number.value) / (2 * self.item.number.half)


def printed_items(pooling: PublishedPooling) -> tuple[PrintedItem, ...]:
    """Return every printed number of a pooling: lines, groups, tests, weights, study effects."""
    return tuple(_items(pooling))


def _items(pooling: PublishedPooling) -> Iterator[PrintedItem]:
    printed = pooling.printed
    if printed.overall is not None:
        yield from _of_line(printed.overall, ("overall",))
    for group in printed.groups:
        yield from _of_line(group, ("group", group.group))
    if printed.between_groups is not None:
        yield from _of(printed.between_groups, ("between",), ("q", "df", "p", "i2"))
    if printed.asymmetry is not None:
        yield from _of(printed.asymmetry, ("asymmetry",), ("intercept", "t", "p"))
    for number, row in enumerate(pooling.rows):
        if row.weight is not None:
            yield PrintedItem(
                ("weight", str(number)), printed_number(row.weight), row.source("weight")
            )
        if row.printed is not None:
            yield from _of(row.printed, ("row", str(number)), ("estimate", "low", "high"))


def _of_line(line: PrintedLine, place: Place) -> Iterator[PrintedItem]:
    yield from _of(line, place, tuple(PrintedLine.model_fields))


def _of(record: object, place: Place, names: tuple[str, ...]) -> Iterator[PrintedItem]:
    for name in names:
        text = getattr(record, name)
        if text is not None:
            source: Source = record.source(name)  # type: ignore[attr-defined]
            yield PrintedItem((*place, name), printed_number(str(text)), source)


#: Numbers that are printed without their sign.
_UNSIGNED = frozenset({"z", "t"})
_VALUES = frozenset({"estimate", "low", "high", "prediction_low", "prediction_high"})


def compared(
    items: tuple[PrintedItem, ...],
    numbers: Numbers,
    envelope: Envelope | None = None,
    *,
    of_fractions: bool,
) -> tuple[Check, ...]:
    """Hold every printed number against a variant.

    Parameters
    ----------
    items : tuple of PrintedItem
        What is printed.
    numbers : dict
        What the variant gives.
    envelope : dict, optional
        Lowest and highest value each number takes as the inputs move within their rounding.
    of_fractions : bool
        Whether pooled values are fractions, which a paper may print in per cent.
    """
    return tuple(_check(item, numbers, envelope, of_fractions) for item in items)


def _check(
    item: PrintedItem, numbers: Numbers, envelope: Envelope | None, of_fractions: bool
) -> Check:
    name = item.place[-1]
    times = 100.0 if of_fractions and item.number.percent and name in _VALUES else 1.0
    checks = [
        _one(item, (*item.place[:-1], other), numbers, envelope, times)
        for other in (name, ALSO.get(name, ""))
        if other
    ]
    return min(checks, key=lambda check: list(Match).index(check.match))


def _one(
    item: PrintedItem, place: Place, numbers: Numbers, envelope: Envelope | None, times: float
) -> Check:
    found = times * float(numbers[place][0]) if place in numbers else math.nan
    if not math.isfinite(found):
        return Check(item, Match.NONE)
    printed = item.number
    unsigned = place[-1] in _UNSIGNED and printed.value < 0
    if unsigned:
        found = -found
    if printed.holds(found, found):
        return Check(item, Match.EXACT, found, place=place, turned=unsigned)
    if envelope is None or place not in envelope:
        return Check(item, Match.NO, found, place=place, turned=unsigned)
    low, high = sorted(times * end * (-1 if unsigned else 1) for end in envelope[place])
    match = Match.ROUNDING if printed.holds(low, high) else Match.NO
    return Check(item, match, found, low, high, place, unsigned)
