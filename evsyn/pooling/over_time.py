"""How a pool grew: the same question asked of the papers up to each year."""

from dataclasses import dataclass, replace

from evsyn.cells.cell import CellTable
from evsyn.extraction.review import Review
from evsyn.pooling.choose import answer_tables
from evsyn.pooling.tables import PooledTable


@dataclass(frozen=True, slots=True)
class UpTo:
    """The pool of the papers up to a year.

    Parameters
    ----------
    year : int or None
        Year of publication; ``None`` for the last line, where papers without a year come in.
    new : tuple of str
        Labels of the studies that come in with it.
    pooled : PooledTable
        The studies up to it, with their answer.
    """

    year: int | None
    new: tuple[str, ...]
    pooled: PooledTable


def grown_over_time(review: Review, base: PooledTable) -> tuple[UpTo, ...]:
    """Answer a pool anew for the papers up to each year of publication.

    Papers of one year come in together: their order within it is not known.

    Parameters
    ----------
    review : Review
        The review.
    base : PooledTable
        The pool as it stands. A study that gave way to another for shared patients stays out,
        also in the years before that other was printed.

    Returns
    -------
    tuple of UpTo
        In the order of years; empty where nothing is pooled.
    """
    if not base.answer.show.pooled:
        return ()
    cells, choices = base.table.cells, review.plan.pooling
    known = sorted({cell.year for cell in cells if cell.year is not None})
    years: list[int | None] = [*known, *([None] if any(c.year is None for c in cells) else [])]
    tables = [_up_to(base.table, year) for year in years]
    answers = answer_tables(tables, between=choices.between, level=choices.level, in_full=False)
    return tuple(
        UpTo(
            year,
            tuple(cell.label for cell in cells if cell.year == year),
            PooledTable(table, answer),
        )
        for year, table, answer in zip(years, tables, answers, strict=True)
    )


def _up_to(table: CellTable, year: int | None) -> CellTable:
    def stands(printed: int | None) -> bool:
        return year is None or (printed is not None and printed <= year)

    return replace(table, cells=tuple(c for c in table.cells if stands(c.year)), left_out=())
