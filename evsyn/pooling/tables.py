"""Pool evidence tables."""

from dataclasses import dataclass

from evsyn.cells.cell import CellTable
from evsyn.pooling.answer import PoolAnswer


@dataclass(frozen=True, slots=True)
class PooledTable:
    """An evidence table with its answer; rows of both stand in the same order."""

    table: CellTable
    answer: PoolAnswer
