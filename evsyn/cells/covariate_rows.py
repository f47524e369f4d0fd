"""The rows of a regression: one a study, or one at each level of the strata regressed on."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

from evsyn.cells.cell import Cell, Question, question_at
from evsyn.cells.covariates import Covariate, Kind, value_of
from evsyn.cells.table import cell_table
from evsyn.extraction.review import Review

#: Levels with fewer studies take no part, as in a test of difference.
LEAST_STUDIES = 3


@dataclass(frozen=True, slots=True)
class CovariateRow:
    """One row with its value of every covariate: numbers, and names of levels."""

    cell: Cell
    values: tuple[float | str, ...]


@dataclass(frozen=True, slots=True)
class WithoutValue:
    """A study that gives no row, with the words of the covariates it has no one value of."""

    study: str
    label: str
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CovariateRows:
    """Rows for a regression, and what gives none.

    Parameters
    ----------
    rows : tuple of CovariateRow
        The rows, those at the plan's first levels first.
    without : tuple of WithoutValue
        Studies pooled over all that give no row.
    short : tuple of (str, str, int)
        Covariate, level and number of studies of levels with fewer than three.
    """

    rows: tuple[CovariateRow, ...]
    without: tuple[WithoutValue, ...]
    short: tuple[tuple[str, str, int], ...]


def covariate_rows(review: Review, outcome: str, covariates: Sequence[Covariate]) -> CovariateRows:
    """Gather the rows of a regression.

    Parameters
    ----------
    review : Review
        A review without faults.
    outcome : str
        The outcome.
    covariates : sequence of Covariate
        What it is regressed on. Where a labelled stratum is among them, rows are the cells of each
        of its levels, so that a study may give several; else the rows pooled over all studies.
    """
    strata = [one for one in covariates if one.kind is Kind.STRATUM]
    everyone = cell_table(review, Question(outcome)).cells
    cells = [
        cell
        for levels in product(*(one.levels for one in strata))
        for cell in cell_table(
            review,
            question_at(
                outcome,
                [(one.word, level) for one, level in zip(strata, levels, strict=True)],
            ),
        ).cells
    ]
    told = [(cell, [value_of(review, one, cell) for one in covariates]) for cell in cells]
    rows = [
        CovariateRow(cell, tuple(value for value in values if value is not None))
        for cell, values in told
        if None not in values
    ]
    rows, short = _without_short_levels(rows, covariates)
    placed = {row.cell.study for row in rows} | {
        cell.study for cell, values in told if None not in values
    }
    without = tuple(
        WithoutValue(cell.study, cell.label, _lacking(review, cell, covariates))
        for cell in everyone
        if cell.study not in placed
    )
    return CovariateRows(tuple(rows), without, short)


def _lacking(review: Review, cell: Cell, covariates: Sequence[Covariate]) -> tuple[str, ...]:
    return tuple(one.word for one in covariates if value_of(review, one, cell) is None)


def _without_short_levels(
    rows: list[CovariateRow], covariates: Sequence[Covariate]
) -> tuple[list[CovariateRow], tuple[tuple[str, str, int], ...]]:
    """Leave out rows at levels with too few; again while that makes others too few."""
    short: list[tuple[str, str, int]] = []
    while True:
        found = [
            (place, level, number)
            for place, one in enumerate(covariates)
            if not one.is_number
            for level, number in _studies_at(rows, place).items()
            if number < LEAST_STUDIES
        ]
        if not found:
            return rows, tuple(short)
        short += [(covariates[place].word, str(level), number) for place, level, number in found]
        gone = {(place, level) for place, level, _ in found}
        rows = [row for row in rows if not any(at in gone for at in enumerate(row.values))]


def _studies_at(rows: list[CovariateRow], place: int) -> Counter[float | str]:
    """Count the studies at each level, however many rows they give there."""
    return Counter(value for value, _ in {(row.values[place], row.cell.study) for row in rows})
