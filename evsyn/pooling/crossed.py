"""Two strata crossed: what each level goes with, and whether the one depends on the other."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from scipy.special import fdtrc

from evsyn.cells.cell import Cell
from evsyn.pooling.regressed import Regressed, regress_cells
from evsyn.pooling.regression import RegressionStatus
from evsyn.pooling.strata_exact import strata_test_exact
from evsyn.pooling.strata_test import LEAST_STUDIES, StrataStatus

Crossing = tuple[str, str]


class NoCrossing(StrEnum):
    """Why two strata are not told apart, or their interaction is not tested."""

    BY_PLAN = "the plan forbids pooling"
    TOO_FEW = "the crossings with three studies or more do not hold two levels of each"
    APART = "the crossings with three studies or more never hold one stratum still"
    NOTHING_LEFT = (
        "the crossings with three studies or more do not hold two levels of each beside each other"
    )
    UNSETTLED = "the exact model did not settle"


@dataclass(frozen=True, slots=True)
class Interaction:
    """The test that what one stratum goes with is the same at every level of the other.

    Parameters
    ----------
    statistic : float
        Likelihood ratio over ``df1``.
    df1, df2 : int
        Crossings less coefficients without interaction; rows less crossings.
    p : float
        Upper tail of F.
    """

    statistic: float
    df1: int
    df2: int
    p: float


@dataclass(frozen=True, slots=True)
class Crossed:
    """Both strata in one model.

    Parameters
    ----------
    crossings : tuple of (str, str)
        Crossings in the model, those with three studies or more.
    short : tuple of (str, str)
        Crossings with fewer.
    terms : tuple of (int, str, str)
        Of each coefficient beside the intercept: 0 or 1 for the stratum, its level, and the
        level it is set against.
    main : Regressed or None
        The model without interaction.
    interaction : Interaction or None
        The test of interaction.
    reason : NoCrossing or None
        Why there is no model, or no test of interaction.
    """

    crossings: tuple[Crossing, ...]
    short: tuple[Crossing, ...]
    terms: tuple[tuple[int, str, str], ...] = ()
    main: Regressed | None = None
    interaction: Interaction | None = None
    reason: NoCrossing | None = None

    @property
    def tests(self) -> int:
        """Tests made: one a coefficient, and the interaction."""
        if self.main is None:
            return 0
        return len(self.main.exact.columns) + (self.interaction is not None)


def crossed_model(
    held: Mapping[Crossing, Sequence[Cell]], *, level: float = 0.95, refused: bool = False
) -> Crossed:
    """Fit two strata in one exact model, and test their interaction where it can be told.

    Parameters
    ----------
    held : mapping of (str, str) to sequence of Cell
        Rows at each crossing of named levels, in the plan's order.
    level : float
        Two-sided level of the limits.
    refused : bool
        Whether the plan forbids pooling.

    Returns
    -------
    Crossed

    Notes
    -----
    The interaction is the likelihood ratio of one centre a crossing against the model without it,
    over the difference of coefficients, on F with rows less crossings: the reference of the test
    between levels.
    """
    kept = {crossing: cells for crossing, cells in held.items() if len(cells) >= LEAST_STUDIES}
    short = tuple(crossing for crossing in held if crossing not in kept)
    bare = Crossed(tuple(kept), short)
    if refused:
        return _without(bare, NoCrossing.BY_PLAN)
    axes = [tuple(dict.fromkeys(crossing[axis] for crossing in kept)) for axis in (0, 1)]
    if min(map(len, axes)) < 2:
        return _without(bare, NoCrossing.TOO_FEW)
    rows = [(crossing, cell) for crossing, cells in kept.items() for cell in cells]
    terms = tuple((axis, name, names[0]) for axis, names in enumerate(axes) for name in names[1:])
    columns = {
        f"{axis}={name}": [float(crossing[axis] == name) for crossing, _ in rows]
        for axis, name, _ in terms
    }
    main = regress_cells([cell for _, cell in rows], columns, level=level, least=0)
    if main.exact.status is RegressionStatus.COLLINEAR:
        return _without(bare, NoCrossing.APART)
    if main.exact.status is not RegressionStatus.FITTED:
        return _without(bare, NoCrossing.UNSETTLED)
    interaction, reason = _interaction(rows, main, len(kept))
    return Crossed(bare.crossings, short, terms, main, interaction, reason)


def _without(bare: Crossed, reason: NoCrossing) -> Crossed:
    return Crossed(bare.crossings, bare.short, reason=reason)


def _interaction(
    rows: Sequence[tuple[Crossing, Cell]], main: Regressed, crossings: int
) -> tuple[Interaction | None, NoCrossing | None]:
    columns = len(main.exact.columns)
    df1 = crossings - 1 - columns
    if df1 < 1:
        return None, NoCrossing.NOTHING_LEFT
    every = strata_test_exact(
        np.array([cell.events for _, cell in rows], dtype=np.int64),
        np.array([cell.total for _, cell in rows], dtype=np.int64),
        ["|".join(crossing) for crossing, _ in rows],
    )
    if every.status is not StrataStatus.TESTED:
        return None, NoCrossing.UNSETTLED
    # Both ratios are against the one centre, so that their difference is between the two models.
    gained = every.statistic * every.df1 - main.exact.statistic * columns
    statistic = max(0.0, gained) / df1
    p = float(fdtrc(df1, every.df2, statistic))
    return Interaction(statistic, df1, every.df2, p), None
