"""Rows of studies regressed by the exact model and in two steps, and which of the two is quoted."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from evsyn.cells.cell import Cell
from evsyn.effects.proportions import logit_effects
from evsyn.pooling.choose import triggers
from evsyn.pooling.regression import (
    STUDIES_A_COLUMN,
    Regression,
    RegressionStatus,
    regress_estimates,
    regress_proportions,
)
from evsyn.pooling.robust import Robust, robust_regression


@dataclass(frozen=True, slots=True)
class Regressed:
    """One regression of counts, by two models.

    Parameters
    ----------
    exact, two_step : Regression
        The binomial-normal model of the counts, and restricted ML on their log-odds.
    few_events : bool
        Whether a few-events trigger fires, so that the exact model is quoted.
    studies : int
        Studies that give the rows.
    shared : tuple of str
        Studies that give several rows.
    robust : Robust or None
        The two-step line with cluster-robust standard errors, intercept first; ``None`` where
        each study gives one row, or nothing was fitted.
    """

    exact: Regression
    two_step: Regression
    few_events: bool
    studies: int
    shared: tuple[str, ...] = ()
    robust: Robust | None = None

    @property
    def quoted(self) -> Regression:
        """The model to read."""
        return self.exact if self.few_events else self.two_step


def regress_cells(
    cells: Sequence[Cell],
    columns: Mapping[str, ArrayLike],
    *,
    level: float = 0.95,
    least: int = STUDIES_A_COLUMN,
) -> Regressed:
    """Regress rows of studies on columns, by both models.

    Parameters
    ----------
    cells : sequence of Cell
        The rows; a study may give several.
    columns : mapping of str to array_like, shape (rows,)
        Columns beside the intercept.
    level : float
        Two-sided level of the limits.
    least : int
        Studies, not rows, wanted a column.

    Returns
    -------
    Regressed

    Raises
    ------
    ValueError
        If a column is not one entry a row, or there is no column.

    Notes
    -----
    Both models take rows of one study as if they were of several; the robust line does not, and
    stands beside them for that.
    """
    events = np.array([cell.events for cell in cells], dtype=np.int64)
    total = np.array([cell.total for cell in cells], dtype=np.int64)
    times = Counter(cell.study for cell in cells)
    wanted = least
    if len(times) < least * len(columns):
        wanted = len(cells) + 1  # so that rows of one study do not pass for studies
    effects = logit_effects(events, total)
    two_step = regress_estimates(
        effects.estimate, effects.variance, columns, level=level, least=wanted
    )
    exact = regress_proportions(events, total, columns, level=level, least=wanted)
    shared = tuple(sorted(study for study, number in times.items() if number > 1))
    robust = None
    if shared and two_step.status is RegressionStatus.FITTED:
        design = np.column_stack(
            [np.ones(len(cells)), *(np.asarray(one, dtype=np.float64) for one in columns.values())]
        )
        robust = robust_regression(
            effects.estimate,
            effects.variance,
            design,
            [cell.study for cell in cells],
            tau2=two_step.tau2,
            level=level,
        )
    few = bool(events.size) and bool(triggers(events, total))
    return Regressed(exact, two_step, few, len(times), shared, robust)
