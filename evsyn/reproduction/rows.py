"""The typed rows as arrays, each number with half a unit of its last printed decimal."""

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from evsyn.effects.arguments import Floats
from evsyn.effects.two_arms import RATIOS, TwoArms
from evsyn.reproduction.printed_number import PrintedNumber, printed_number
from evsyn.reproduction.record import Measure, PublishedPooling, Row


class Kind(StrEnum):
    """What a row gives."""

    COUNTS = "events and total of two arms"
    MEANS = "mean, sd and total of two arms"
    PROPORTION = "events and total"
    LIMITS = "an estimate with its limits"
    ERROR = "an estimate with its standard error"


@dataclass(frozen=True, slots=True)
class Rows:
    """The rows of a pooling.

    Parameters
    ----------
    kind : Kind
        What every row gives.
    measure : Measure
        What is pooled.
    columns, halves : ndarray
        Shape ``(columns, studies)``: the numbers as typed, and how far each may be from what was
        rounded; 0 for counts. In the order of the kind: first arm before second; estimate, low,
        high; estimate, se.
    groups : tuple of str
        Subgroup of each row, ``""`` where none.
    sizes : ndarray or None
        Shape ``(2, studies)``: patients of both arms beside given effects.
    """

    kind: Kind
    measure: Measure
    columns: Floats
    halves: Floats
    groups: tuple[str, ...]
    sizes: Floats | None = None

    @property
    def levels(self) -> tuple[str, ...]:
        """Subgroups in the order of the rows."""
        return tuple(dict.fromkeys(group for group in self.groups if group))

    def number_of(self, group: str = "") -> int:
        """Return how many rows enter the pool of a subgroup, or of all."""
        inside = [group in ("", one) for one in self.groups]
        return int((self.informs & np.array(inside)).sum())

    @property
    def rounded(self) -> bool:
        """Whether any number was rounded before it was typed."""
        return bool(self.halves.any())

    @property
    def arms(self) -> TwoArms:
        """The four cells of each row, where rows are counts of two arms."""
        x_1, n_1, x_2, n_2 = self.columns
        return TwoArms(x_1, n_1 - x_1, x_2, n_2 - x_2)

    @property
    def informs(self) -> NDArray[np.bool_]:
        """Rows that enter the pool: all but those that leave a ratio open."""
        everyone = np.ones(self.columns.shape[1], dtype=np.bool_)
        if self.kind is Kind.COUNTS and self.measure.value.replace(" ", "_") in RATIOS:
            return self.arms.informs_ratio
        return everyone


def kind_of(row: Row) -> Kind | None:
    """Return what a row gives, or None where that is nothing whole, or two things at once."""
    arms = [arm for arm in (row.first, row.second) if arm is not None]
    counted = len(arms) == 2 and all(arm.events is not None for arm in arms)
    measured = len(arms) == 2 and all(arm.mean is not None and arm.sd is not None for arm in arms)
    limits = row.estimate is not None and row.low is not None and row.high is not None
    given = {
        Kind.COUNTS: counted,
        Kind.MEANS: measured,
        Kind.PROPORTION: row.events is not None and row.total is not None,
        Kind.LIMITS: limits,
        Kind.ERROR: row.estimate is not None and row.se is not None,
    }
    found = [kind for kind, is_given in given.items() if is_given]
    return found[0] if len(found) == 1 else None


def rows_of(pooling: PublishedPooling) -> Rows:
    """Return the rows of a pooling without faults as arrays."""
    kind = kind_of(pooling.rows[0])
    assert kind is not None
    read = [_READ[kind](row) for row in pooling.rows]
    columns = np.array([[value for value, _ in row] for row in read]).T
    halves = np.array([[half for _, half in row] for row in read]).T
    groups = tuple(row.group or "" for row in pooling.rows)
    return Rows(kind, pooling.measure, columns, halves, groups, _sizes(pooling))


def _sizes(pooling: PublishedPooling) -> Floats | None:
    arms = [(row.first, row.second) for row in pooling.rows]
    sizes = [(first.total, second.total) for first, second in arms if first and second]
    return np.array(sizes, dtype=np.float64).T if len(sizes) == len(arms) else None


def _exact(*counts: int | None) -> list[tuple[float, float]]:
    return [(float(count or 0), 0.0) for count in counts]


def _typed(*texts: str | None) -> list[tuple[float, float]]:
    numbers: list[PrintedNumber] = [printed_number(text) for text in texts if text is not None]
    return [(number.value, number.half) for number in numbers]


def _counts(row: Row) -> list[tuple[float, float]]:
    assert row.first and row.second
    return _exact(row.first.events, row.first.total, row.second.events, row.second.total)


def _means(row: Row) -> list[tuple[float, float]]:
    read: list[tuple[float, float]] = []
    for arm in (row.first, row.second):
        assert arm
        read += [*_typed(arm.mean, arm.sd), *_exact(arm.total)]
    return read


#: How the numbers of a row are taken from it.
_READ: dict[Kind, Callable[[Row], list[tuple[float, float]]]] = {
    Kind.COUNTS: _counts,
    Kind.MEANS: _means,
    Kind.PROPORTION: lambda row: _exact(row.events, row.total),
    Kind.LIMITS: lambda row: _typed(row.estimate, row.low, row.high),
    Kind.ERROR: lambda row: _typed(row.estimate, row.se),
}
