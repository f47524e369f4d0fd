"""How far one pooled answer hangs on each of its counts.

Every count is moved by a few events with its total held, and every study is left out, one at a
time. All the tables this makes are answered in one call of the engine, so each answer is the one
the changed table would have if it were pooled itself. Common practice, no source: leaving out one
study at a time is usual, and so are counts in dispute by an event or two.
"""

import math
from dataclasses import dataclass, replace
from enum import StrEnum

from evsyn.cells.cell import Cell, CellTable
from evsyn.extraction.review import Review
from evsyn.pooling.answer import PoolAnswer
from evsyn.pooling.choose import answer_tables
from evsyn.pooling.tables import PooledTable
from evsyn.pooling.what_if import tables_without, with_count

#: Events by which a count is moved, at most, either way.
MOST_EVENTS = 3


class Side(StrEnum):
    """Where an interval lies against a rate."""

    BELOW = "below"
    HOLDS = "holds"
    ABOVE = "above"


@dataclass(frozen=True, slots=True)
class Variant:
    """One changed table with its answer, whose rows are those needed to read it.

    Parameters
    ----------
    change : int or None
        Events more (above 0) or fewer (below 0); ``None`` where the study is left out.
    pooled : PooledTable
        The changed table and its answer.
    shift : float
        Estimate of the row to read, less that of the unchanged pool; ``nan`` where either has
        none.
    """

    change: int | None
    pooled: PooledTable
    shift: float


@dataclass(frozen=True, slots=True)
class DisputedStudy:
    """One study's row, and the answers if its count were another.

    Parameters
    ----------
    row : Cell
        The row as it is pooled.
    counts : tuple of Variant
        From fewest to most events, the unchanged count among them.
    without : Variant
        The study left out.
    comes_in : tuple of str
        Labels of studies pooled only then, because they share patients with it.
    """

    row: Cell
    counts: tuple[Variant, ...]
    without: Variant
    comes_in: tuple[str, ...]

    @property
    def largest_shift(self) -> float:
        """The largest distance of any variant from the unchanged estimate; 0 where none exists."""
        shifts = [abs(one.shift) for one in (*self.counts, self.without)]
        return max((shift for shift in shifts if not math.isnan(shift)), default=0.0)


@dataclass(frozen=True, slots=True)
class DisputedPool:
    """One pool with every variant of it; no study where nothing is pooled."""

    base: PooledTable
    studies: tuple[DisputedStudy, ...]


def disputed_pool(review: Review, base: PooledTable, *, most: int = MOST_EVENTS) -> DisputedPool:
    """Answer a pool anew with each count moved, and with each study left out.

    Parameters
    ----------
    review : Review
        The review, which tells who comes in where a study is left out.
    base : PooledTable
        The pool as it stands.
    most : int
        Events to move a count by, at most.

    Returns
    -------
    DisputedPool
        Studies in the order of the pool.
    """
    if not base.answer.show.pooled:
        return DisputedPool(base, ())
    table, choices = base.table, review.plan.pooling
    changes = [_changes(row, most) for row in table.cells]
    tables = [_moved(table, n, by) for n, listed in enumerate(changes) for by in listed]
    without = [tables_without(review, [table], [row.study])[0] for row in table.cells]
    answers = answer_tables(
        [*tables, *without], between=choices.between, level=choices.level, in_full=False
    )
    pooled = [PooledTable(*pair) for pair in zip([*tables, *without], answers, strict=True)]
    moved, left = iter(pooled), pooled[len(tables) :]
    studies = []
    for row, listed, gone in zip(table.cells, changes, left, strict=True):
        variants = [_variant(base, by, next(moved)) for by in listed]
        unchanged = Variant(0, base, _shift(base.answer, base.answer))
        counts = sorted([*variants, unchanged], key=lambda one: one.change or 0)
        here = {cell.study for cell in table.cells}
        comes_in = tuple(cell.label for cell in gone.table.cells if cell.study not in here)
        studies.append(DisputedStudy(row, tuple(counts), _variant(base, None, gone), comes_in))
    return DisputedPool(base, tuple(studies))


def side_of(answer: PoolAnswer, rate: float) -> Side | None:
    """Say where the interval of the row to read lies against a rate; ``None`` without one."""
    if answer.reading is None:
        return None
    row = answer.reading.pooled
    if row.high < rate:
        return Side.BELOW
    return Side.ABOVE if row.low > rate else Side.HOLDS


def _changes(row: Cell, most: int) -> list[int]:
    steps = range(-most, most + 1)
    return [by for by in steps if by and 0 <= row.events + by <= row.total]


def _moved(table: CellTable, number: int, by: int) -> CellTable:
    row = table.cells[number]
    changed = with_count(row, table.question.outcome, row.events + by, row.total)
    return replace(table, cells=(*table.cells[:number], changed, *table.cells[number + 1 :]))


def _variant(base: PooledTable, by: int | None, pooled: PooledTable) -> Variant:
    return Variant(by, pooled, _shift(pooled.answer, base.answer))


def _shift(answer: PoolAnswer, base: PoolAnswer) -> float:
    if answer.reading is None or base.reading is None:
        return math.nan
    return answer.reading.pooled.estimate - base.reading.pooled.estimate
