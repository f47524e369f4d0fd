"""Search for whole numbers under which some lines of a unit file hold together.

The search is branch and cut by HiGHS (Huangfu and Hall, Math Prog Comput 2018;10:119-142), as
scipy offers it. What it finds is recomputed in whole numbers before it is believed.
"""

from collections.abc import Collection
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from evsyn.extraction.flow.system import System, UnsettledError, Whole

#: Branches after which a search is given up; the same on every machine, unlike a time.
NODES = 2_000
_OPTIMAL, _INFEASIBLE = 0, 2


@dataclass(frozen=True, slots=True)
class Found:
    """A solution.

    Parameters
    ----------
    numbers : ndarray of int, shape (columns,)
        Patients of each type and devices of each end.
    broken : frozenset of int
        The lines that do not hold under it.
    """

    numbers: Whole
    broken: frozenset[int]


def possible(system: System, chosen: Collection[int], *, presolve: bool = True) -> bool:
    """Return whether some lines can hold together.

    Parameters
    ----------
    system : System
        The rows.
    chosen : collection of int
        Numbers of the lines that must hold.
    presolve : bool
        Whether the solver may simplify first; without it the search is a second, slower way.

    Raises
    ------
    UnsettledError
        If the search was not finished.
    """
    rows = _rows_of(system, chosen)
    nothing = np.zeros(system.matrix.shape[1])
    return _solved(system, chosen, system.matrix[rows], rows, nothing, presolve) is not None


def nearest(system: System, chosen: Collection[int]) -> Found | None:
    """Return a solution under which some lines hold, and the others are missed by little.

    Parameters
    ----------
    system : System
        The rows.
    chosen : collection of int
        Numbers of the lines that must hold.

    Returns
    -------
    Found or None
        ``None`` where the chosen lines cannot hold together.

    Raises
    ------
    UnsettledError
        If the search was not finished.
    """
    from scipy.sparse import eye_array, hstack

    rows, columns = system.matrix.shape
    loose = np.flatnonzero(~_rows_of(system, chosen))
    slack = eye_array(rows, format="csc")[:, loose]
    matrix = hstack([system.matrix, slack, -slack], format="csc")
    cost = np.concatenate([np.zeros(columns), np.ones(2 * len(loose))])
    return _solved(system, chosen, matrix, np.ones(rows, dtype=bool), cost, True)


def extreme(
    system: System, chosen: Collection[int], factors: Whole, *, smallest: bool
) -> int | None:
    """Return the smallest or largest sum some lines leave, or ``None`` where they clash.

    Parameters
    ----------
    system : System
        The rows.
    chosen : collection of int
        Numbers of the lines that must hold.
    factors : ndarray of int, shape (columns,)
        Factors of the sum.
    smallest : bool
        Which of the two.

    Raises
    ------
    UnsettledError
        If the search was not finished.
    """
    rows = _rows_of(system, chosen)
    cost = (1.0 if smallest else -1.0) * factors
    found = _solved(system, chosen, system.matrix[rows], rows, cost, True)
    return None if found is None else int(factors @ found.numbers)


def _rows_of(system: System, chosen: Collection[int]) -> NDArray[np.bool_]:
    return np.isin(system.owner, [-1, *chosen])


def _solved(
    system: System,
    chosen: Collection[int],
    matrix: Any,
    rows: NDArray[np.bool_],
    cost: NDArray[np.floating],
    presolve: bool,
) -> Found | None:
    from scipy.optimize import Bounds, LinearConstraint, milp

    columns = system.matrix.shape[1]
    whole = np.arange(matrix.shape[1]) < columns
    # The solver can fail over its own simplifications (status 4); it then tries without them.
    for simplified in (True, False) if presolve else (False,):
        result = milp(
            cost,
            integrality=whole,
            bounds=Bounds(0, np.where(whole, system.most, np.inf)),
            constraints=LinearConstraint(matrix, system.low[rows], system.high[rows]),
            options={"node_limit": NODES, "mip_rel_gap": 0.0, "presolve": simplified},
        )
        if result.status == _INFEASIBLE:
            return None
        if result.status == _OPTIMAL:
            break
    else:
        raise UnsettledError
    numbers = np.rint(result.x[:columns]).astype(np.int64)
    sums = system.matrix @ numbers
    missed = (sums < system.low) | (sums > system.high)
    broken = frozenset(int(owner) for owner in np.unique(system.owner[missed]))
    if broken & {-1, *chosen}:
        raise UnsettledError
    return Found(numbers, broken)
