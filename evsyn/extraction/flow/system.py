"""The lines of a unit file as rows over numbers of patients and devices, all whole and 0 or more.

A set of lines can hold together if and only if the rows have a solution in whole numbers.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from evsyn.extraction.flow.attributes import Attributes
from evsyn.extraction.flow.device_lines import device_ends, held_by
from evsyn.extraction.flow.line import Limit, Line
from evsyn.extraction.flow.sets import Cases
from evsyn.extraction.flow.types import Table, TooManyTypesError, tables
from evsyn.extraction.plan import Plan
from evsyn.extraction.unit import Unit

CELLS = 15_000
LARGEST = 10**7

Whole = NDArray[np.int64]
Row = tuple[dict[int, int], int | None, int | None]


class UnsettledError(Exception):
    """Raised when the lines are too many or the numbers too large to be searched."""


@dataclass(frozen=True, slots=True)
class System:
    """Rows over numbers of patients and devices.

    Parameters
    ----------
    matrix : scipy.sparse.csr_array of int, shape (rows, columns)
        Factors; a column is the number of patients of a type, or of devices of an end.
    low, high : ndarray of float, shape (rows,)
        Limits of each row, infinite where there is none.
    owner : ndarray of int, shape (rows,)
        Number of the line a row belongs to; -1 for what holds whatever the file says.
    lines : int
        Number of lines.
    most : int
        A number that no column needs to pass: if the lines hold together at all, they do so
        below it.
    """

    matrix: Any
    low: NDArray[np.float64]
    high: NDArray[np.float64]
    owner: Whole
    lines: int
    most: int


def system_of(lines: list[Line], unit: Unit, plan: Plan) -> System:
    """Return the rows of some lines.

    Parameters
    ----------
    lines : list of Line
        The lines, as ``unit_lines`` gives them.
    unit : Unit
        The unit's figures.
    plan : Plan
        The plan of the review.

    Raises
    ------
    UnsettledError
        If there would be too many types of patients, or a number is too large.

    Notes
    -----
    Take any solution and strike out patients and devices while all rows still hold. Each that is
    left is then needed for some lower limit, or is the one patient that allows an end of devices;
    so no more are left than the lower limits sum to, with one for each end, taken once for each
    choice of steps that devices may ask for.
    """
    attributes = Attributes(plan, len(unit.groups))
    ends = device_ends(plan)
    lows = sum(limit.low or 0 for line in lines for limit in line.limits)
    most = 2 ** len(set(ends.values())) * (lows + len(ends) + 1)
    if most > LARGEST:
        raise UnsettledError
    limits = [(-1, limit) for limit in held_by(unit, attributes, most)]
    limits += [(number, limit) for number, line in enumerate(lines) for limit in line.limits]
    said = {cases for _, limit in limits for _, cases in limit.cases}
    try:
        found = tables(said, unit, attributes, CELLS)
    except TooManyTypesError as error:
        raise UnsettledError from error
    columns = _Columns(found, tuple(ends))
    rows = [(-1, row) for row in columns.agreements()]
    rows += [(owner, columns.row(limit)) for owner, limit in limits]
    return System(
        columns.matrix([row[0] for _, row in rows]),
        np.array([-np.inf if row[1] is None else row[1] for _, row in rows], dtype=float),
        np.array([np.inf if row[2] is None else row[2] for _, row in rows], dtype=float),
        np.array([owner for owner, _ in rows]),
        len(lines),
        most,
    )


class _Columns:
    """Which columns belong to which cell of which table, and to which end of devices."""

    def __init__(self, found: tuple[Table, ...], ends: tuple[str, ...]) -> None:
        self._tables = found
        self._ends = ends
        self._starts = np.cumsum([0, *(len(table.cells) for table in found)])
        self._values = [_as_array(table) for table in found]

    def matrix(self, rows: list[dict[int, int]]) -> Any:
        """Return the factors of all rows, most of which are 0."""
        from scipy.sparse import csr_array

        counts = np.cumsum([0, *map(len, rows)])
        places = np.array([column for row in rows for column in row], dtype=np.int64)
        factors = np.array([factor for row in rows for factor in row.values()], dtype=np.int64)
        shape = (len(rows), int(self._starts[-1]) + len(self._ends))
        return csr_array((factors, places, counts), shape=shape)

    def agreements(self) -> Iterator[Row]:
        """Yield one row for each set of values that two tables share."""
        for place, table in enumerate(self._tables):
            if table.parent is None:
                continue
            mine, theirs = self._shared(place, table), self._shared(table.parent, table)
            for value in sorted({*mine, *theirs}):
                row = dict.fromkeys(mine.get(value, []), 1)
                yield row | dict.fromkeys(theirs.get(value, []), -1), 0, 0

    def _shared(self, place: int, child: Table) -> dict[tuple[str, ...], list[int]]:
        table = self._tables[place]
        where = [table.attributes.index(name) for name in child.shared]
        found: dict[tuple[str, ...], list[int]] = {}
        for number, cell in enumerate(table.cells):
            found.setdefault(tuple(cell[at] for at in where), []).append(
                int(self._starts[place]) + number
            )
        return found

    def row(self, limit: Limit) -> Row:
        """Return a limit as a row."""
        row: Counter[int] = Counter()
        for factor, cases in limit.cases:
            row.update(dict.fromkeys(self._of(cases), factor))
        for factor, end in limit.devices:
            row[int(self._starts[-1]) + self._ends.index(end)] += factor
        return dict(row), limit.low, limit.high

    def _of(self, cases: Cases) -> list[int]:
        """Return the columns whose patients are of a set, in the smallest table that tells."""
        able = [n for n, t in enumerate(self._tables) if cases.attributes <= set(t.attributes)]
        place = min(able, key=lambda number: len(self._tables[number].cells))
        table, values = self._tables[place], self._values[place]
        fits = np.ones(len(values), dtype=bool)
        for name, allowed in cases.allowed:
            fits &= np.isin(values[:, table.attributes.index(name)], [*allowed])
        return [int(self._starts[place]) + int(number) for number in np.flatnonzero(fits)]


def _as_array(table: Table) -> NDArray[np.str_]:
    return np.array(table.cells, dtype=str).reshape(-1, len(table.attributes))
