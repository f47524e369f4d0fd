"""Do the levels of a stratum differ: the test quoted, and beside it what else may be asked."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from evsyn.cells.cell import Cell, Question
from evsyn.effects.arguments import Floats
from evsyn.effects.proportions import logit_effects
from evsyn.pooling.difference import Difference, cells_tested, stratum_difference
from evsyn.pooling.robust import robust_regression
from evsyn.pooling.strata_exact import strata_test_exact
from evsyn.pooling.strata_test import StrataTest
from evsyn.pooling.strata_two_step import strata_test_two_step
from evsyn.pooling.tables import PooledTable


@dataclass(frozen=True, slots=True)
class RobustPair:
    """Two levels compared with cluster-robust standard errors, first less second, log-odds.

    Parameters
    ----------
    first, second : str
        The levels.
    estimate, low, high : float
        Difference of log-odds and its limits.
    df, p : float
        Satterthwaite degrees of freedom; P, ``nan`` below 4 of them.
    """

    first: str
    second: str
    estimate: float
    low: float
    high: float
    df: float
    p: float


@dataclass(frozen=True, slots=True)
class StratumAsked:
    """One stratum with its levels compared.

    Parameters
    ----------
    stratum : str
        The stratum.
    pools : dict
        The pool of each level, those that take no part among them.
    difference : Difference
        The test quoted, or why there is none.
    exact, two_step : StrataTest or None
        The same test by both models; ``None`` where none is made.
    robust : tuple of RobustPair
        Every pair by the two-step route, where a study stands at more than one level.
    """

    stratum: str
    pools: dict[str, PooledTable]
    difference: Difference
    exact: StrataTest | None = None
    two_step: StrataTest | None = None
    robust: tuple[RobustPair, ...] = ()

    @property
    def tests(self) -> int:
        """Tests made: one, and one more for each pair where there are more than two levels."""
        if self.difference.test is None:
            return 0
        pairs = len(self.difference.test.differences)
        return 1 if pairs == 1 else 1 + pairs


def stratum_asked(
    answers: Mapping[Question, PooledTable],
    outcome: str,
    stratum: str,
    levels: Sequence[str],
    *,
    level: float = 0.95,
) -> StratumAsked:
    """Compare the levels of a stratum by every route that is shown.

    Parameters
    ----------
    answers : mapping
        Pooled answers by question.
    outcome, stratum : str
        Which outcome, by which stratum.
    levels : sequence of str
        Levels of the stratum.
    level : float
        Two-sided level of the limits.

    Returns
    -------
    StratumAsked
        Its ``difference`` is that of :func:`evsyn.pooling.difference.stratum_difference`.
    """
    pools = {name: answers[Question(outcome, stratum, name)] for name in levels}
    difference = stratum_difference(answers, outcome, stratum, levels, level=level)
    if difference.test is None:
        return StratumAsked(stratum, pools, difference)
    tested = cells_tested(answers, outcome, stratum, levels)
    rows = [(name, cell) for name, cells in tested.items() for cell in cells]
    labels = [name for name, _ in rows]
    events = np.array([cell.events for _, cell in rows], dtype=np.int64)
    total = np.array([cell.total for _, cell in rows], dtype=np.int64)
    effects = logit_effects(events, total)
    two_step = strata_test_two_step(effects.estimate, effects.variance, labels, level=level)
    return StratumAsked(
        stratum,
        pools,
        difference,
        strata_test_exact(events, total, labels, level=level),
        two_step,
        robust_pairs(effects.estimate, effects.variance, rows, two_step.tau2, level=level)
        if difference.shared
        else (),
    )


def robust_pairs(
    estimate: Floats,
    variance: Floats,
    rows: Sequence[tuple[str, Cell]],
    tau2: float,
    *,
    level: float = 0.95,
) -> tuple[RobustPair, ...]:
    """Compare every pair of levels with standard errors robust to rows of one study.

    Parameters
    ----------
    estimate, variance : ndarray, shape (rows,)
        Log-odds and sampling variances.
    rows : sequence of (str, Cell)
        The level and the row of each.
    tau2 : float
        Between-study variance in the weights.
    level : float
        Two-sided level of the limits.
    """
    names = list(dict.fromkeys(name for name, _ in rows))
    clusters = [cell.study for _, cell in rows]
    ones = {name: [float(one == name) for one, _ in rows] for name in names}
    found = []
    for place, second in enumerate(names[1:], start=1):
        # Against the second level as the one left out, its coefficients are the differences.
        others = [name for name in names if name != second]
        design = np.column_stack([np.ones(len(rows)), *(ones[name] for name in others)])
        fit = robust_regression(estimate, variance, design, clusters, tau2=tau2, level=level)
        for first in names[:place]:
            at = 1 + others.index(first)
            values = (fit.beta, fit.low, fit.high, fit.df, fit.p)
            found.append(RobustPair(first, second, *(float(one[at]) for one in values)))
    return tuple(sorted(found, key=lambda one: (names.index(one.first), names.index(one.second))))
