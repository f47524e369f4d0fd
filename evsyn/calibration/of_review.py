"""The layout of a user's own review: its sizes, and what its row to read says is true."""

from collections import Counter
from dataclasses import dataclass

from evsyn.calibration.layout import LEAST_LEVELS, Layout
from evsyn.cells.cell import CellTable, question_at
from evsyn.cells.levels import labelled_strata, level_names
from evsyn.cells.table import cell_table
from evsyn.extraction.review import Review
from evsyn.pooling.answer import Show
from evsyn.pooling.choose import LEAST_TO_READ
from evsyn.pooling.review import answer_cell_tables
from evsyn.pooling.tables import PooledTable
from evsyn.terms import UNPLACED


@dataclass(frozen=True, slots=True)
class ReviewLayout:
    """A layout taken from a review.

    Parameters
    ----------
    layout : Layout
        What is simulated.
    pooled : PooledTable
        The pool it was taken from.
    small_levels : tuple of str
        Levels left out of the comparison of levels, having fewer than three studies.
    shared : tuple of str
        Studies that stand in more than one level; they are drawn as if they were several.
    """

    layout: Layout
    pooled: PooledTable
    small_levels: tuple[str, ...] = ()
    shared: tuple[str, ...] = ()


def layout_of_review(
    review: Review,
    outcome: str,
    *,
    at: tuple[str, str] | None = None,
    by: str | None = None,
    rate: float | None = None,
    tau: float | None = None,
    cases: int | None = None,
) -> ReviewLayout:
    """Take the layout of one pool of a review.

    Parameters
    ----------
    review : Review
        A review without faults.
    outcome : str
        Outcome of the plan.
    at : (str, str), optional
        Stratum and level to which the pool is narrowed.
    by : str, optional
        Stratum whose levels are compared as well.
    rate, tau : float, optional
        True rate and spread; those of the row to read by default.
    cases : int, optional
        Patients of a new unit.

    Raises
    ------
    ValueError
        If there is nothing to simulate, with the reason.
    """
    table = cell_table(review, question_at(outcome, () if at is None else (at,)))
    pooled = answer_cell_tables(review, [table])[table.question]
    answer, plan = pooled.answer, review.plan
    if answer.show is Show.REFUSED:
        raise ValueError(f"The plan forbids pooling '{outcome}', so there is no interval to try.")
    if answer.k < LEAST_TO_READ:
        raise ValueError(
            f"{answer.k} of the review's studies report this, and a review is pooled from "
            f"{LEAST_TO_READ} on: there is no interval to try."
        )
    read = answer.reading
    if (rate is None or tau is None) and (read is None or read.rho is not None):
        raise ValueError(
            "This pool has no row to read that gives a rate and a spread. Say which to take as "
            "true: --rate and --tau."
        )
    if read is not None:
        rate = read.pooled.estimate if rate is None else rate
        tau = read.centre.tau if tau is None else tau
    assert rate is not None and tau is not None
    levels = {} if by is None else _tables_by_level(review, outcome, at, by)
    large = {name: one for name, one in levels.items() if one.k >= LEAST_TO_READ}
    if by is not None and len(large) < LEAST_LEVELS:
        raise ValueError(
            f"Fewer than two levels of '{by}' have three studies, so the tool makes no test of "
            "difference between them."
        )
    times = Counter(cell.study for one in large.values() for cell in one.cells)
    return ReviewLayout(
        layout=Layout(
            sizes=tuple(answer.total),
            rate=rate,
            tau=tau,
            levels=tuple((name, _sizes(one)) for name, one in large.items()),
            cases=cases,
            better=plan.outcomes[outcome].better,
        ),
        pooled=pooled,
        small_levels=tuple(name for name in levels if name not in large),
        shared=tuple(sorted(study for study, number in times.items() if number > 1)),
    )


def _tables_by_level(
    review: Review, outcome: str, at: tuple[str, str] | None, by: str
) -> dict[str, CellTable]:
    """Gather the studies of each named level, within the level the pool is narrowed to."""
    if at is not None and at[0] == by:
        raise ValueError(f"The pool is narrowed to one level of '{by}': compare another stratum.")
    if at is not None and by not in labelled_strata(review.plan):
        raise ValueError(
            f"'{by}' is read from the dates of a study, and cannot be crossed with the level of "
            "another stratum. Leave out the level, or compare another stratum."
        )
    names = level_names(review.plan.strata[by])
    order = list(review.plan.strata)
    tables = {}
    for level in names:
        if level == UNPLACED:
            continue
        places = sorted(
            [place for place in (at, (by, level)) if place is not None],
            key=lambda place: order.index(place[0]),
        )
        tables[names[level]] = cell_table(review, question_at(outcome, places))
    return tables


def _sizes(table: CellTable) -> tuple[int, ...]:
    return tuple(cell.total for cell in table.cells)
