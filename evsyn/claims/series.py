"""How many series a statement is true of, by their rates and by their whole intervals."""

from dataclasses import dataclass
from fractions import Fraction

from evsyn.audit.exact import exact_interval
from evsyn.cells.cell import Cell, CellTable
from evsyn.claims.reach import Reach
from evsyn.terms import Source


@dataclass(frozen=True, slots=True)
class OneSeries:
    """A series with its exact two-sided 95% interval, proportions."""

    study: str
    label: str
    events: int
    total: int
    low: float
    high: float
    source: Source

    @property
    def rate(self) -> Fraction:
        """Its own rate, exact."""
        return Fraction(self.events, self.total)


@dataclass(frozen=True, slots=True)
class SeriesCount:
    """Of how many series a statement is true.

    Parameters
    ----------
    inside, outside : tuple of OneSeries
        Series whose own rate it is true of, and the others.
    at_edge : int
        Series whose rate is the very number named, which ``below`` and ``above`` leave out.
    by_interval, against : int
        Series of whose whole exact interval it is true, and of none of whose interval.
    """

    inside: tuple[OneSeries, ...]
    outside: tuple[OneSeries, ...]
    at_edge: int
    by_interval: int
    against: int

    @property
    def k(self) -> int:
        """Number of series."""
        return len(self.inside) + len(self.outside)

    @property
    def by_rate(self) -> int:
        """Number of series whose own rate it is true of."""
        return len(self.inside)


def count_series(table: CellTable, reach: Reach) -> SeriesCount:
    """Count the series of a table that a statement is true of.

    Rates are compared as fractions, so that a tie is a tie.

    Parameters
    ----------
    table : CellTable
        The series.
    reach : Reach
        The rates the statement is true of.
    """
    rows = [one_series(cell) for cell in table.cells]
    return SeriesCount(
        inside=tuple(row for row in rows if reach.holds(row.rate)),
        outside=tuple(row for row in rows if not reach.holds(row.rate)),
        at_edge=sum(reach.at_edge(row.rate) for row in rows),
        by_interval=sum(reach.holds_all(row.low, row.high) for row in rows),
        against=sum(reach.misses_all(row.low, row.high) for row in rows),
    )


def one_series(cell: Cell) -> OneSeries:
    """Return a row of a table with its exact interval and its first place."""
    limits = exact_interval(cell.events, cell.total)
    return OneSeries(
        study=cell.study,
        label=cell.label,
        events=cell.events,
        total=cell.total,
        low=limits.low,
        high=limits.high,
        source=cell.sources[0],
    )
