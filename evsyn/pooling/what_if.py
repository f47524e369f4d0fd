"""Evidence tables as they would be if a count were another, or a study were not there."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from evsyn.cells.cell import Cell, CellTable
from evsyn.cells.table import cell_table
from evsyn.extraction.review import Review
from evsyn.terms import OVERALL, Source

#: Stands where a source of the paper would stand.
NOT_OF_THE_PAPER = "what if, not a count of the paper"
LEFT_OUT = "what if this study were left out"


@dataclass(frozen=True, slots=True)
class CountChange:
    """The count that one study's row of one outcome takes.

    Parameters
    ----------
    study, outcome : str
        Their names.
    events, total : int
        The count to take.

    Raises
    ------
    ValueError
        If no patient or fewer than none is counted, or more events than patients.
    """

    study: str
    outcome: str
    events: int
    total: int

    def __post_init__(self) -> None:
        if self.total < 1 or not 0 <= self.events <= self.total:
            raise ValueError(f"{self.events} of {self.total} cannot be a count")


def tables_without(
    review: Review, tables: Iterable[CellTable], without: Iterable[str]
) -> tuple[CellTable, ...]:
    """Gather tables again as if some studies were not there.

    A study that gave way to one of them, because they share patients, comes in.
    """
    names = frozenset(without)
    return tuple(
        cell_table(review, table.question, without=names, reason=LEFT_OUT) for table in tables
    )


def strata_untold(tables: Sequence[CellTable], change: CountChange) -> tuple[str, ...]:
    """Name the strata at whose levels a changed count of the whole study says nothing.

    At a level that holds the same count as the pool of all studies, that count changes with it. A
    row made of other counts of the study is a part of it, and how the change would fall on its
    parts is not told.

    Parameters
    ----------
    tables : sequence of CellTable
        Tables of one outcome or several, that of all studies among them.
    change : CountChange
        The change.
    """
    whole = pooled_row(tables, change)
    found = [
        table.question.stratum
        for table, row in _rows(tables, change)
        if whole is not None and row.sources != whole.sources
    ]
    return tuple(dict.fromkeys(found))


def pooled_row(tables: Iterable[CellTable], change: CountChange) -> Cell | None:
    """Return the row, over all studies, that a change is of; ``None`` if it is not pooled."""
    rows = (row for table, row in _rows(tables, change) if table.question.stratum == OVERALL)
    return next(rows, None)


def changed_tables(
    tables: Sequence[CellTable], changes: Iterable[CountChange]
) -> tuple[CellTable, ...]:
    """Return tables whose rows take other counts, wherever the same count stands.

    Parameters
    ----------
    tables : sequence of CellTable
        Tables with that of all studies for each outcome; none with strata of
        :func:`strata_untold`.
    changes : iterable of CountChange
        The changes, one a study and outcome.

    Raises
    ------
    ValueError
        If a change is of a study that is not pooled, or cannot be told at a level.
    """
    asked = {(change.study, change.outcome): change for change in changes}
    for change in asked.values():
        if pooled_row(tables, change) is None or strata_untold(tables, change):
            raise ValueError(f"{change} is not of one pooled count")
    return tuple(replace(table, cells=tuple(_rows_after(table, asked))) for table in tables)


def _rows_after(table: CellTable, asked: Mapping[tuple[str, str], CountChange]) -> Iterator[Cell]:
    outcome = table.question.outcome
    for row in table.cells:
        change = asked.get((row.study, outcome))
        yield with_count(row, outcome, change.events, change.total) if change else row


def with_count(row: Cell, outcome: str, events: int, total: int) -> Cell:
    """Return a row with another count, whose source says that it is no paper's."""
    source = what_if_source(row.study, outcome)
    return replace(row, events=events, total=total, sources=(source,))


def what_if_source(study: str, outcome: str) -> Source:
    """Return what stands in place of the place of a count that no paper gives."""
    return Source(NOT_OF_THE_PAPER, 0, f"{study}.{outcome}")


def _rows(tables: Iterable[CellTable], change: CountChange) -> list[tuple[CellTable, Cell]]:
    return [
        (table, row)
        for table in tables
        for row in table.cells
        if table.question.outcome == change.outcome and row.study == change.study
    ]
