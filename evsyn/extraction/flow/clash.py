"""The smallest set of lines that cannot all hold.

A set of lines clashes if and only if it shares a line with every set of lines whose removal would
make the rest possible. So the smallest set that meets all removals found so far is either a clash,
and then none is smaller, or it is possible and leads to a removal not yet found.

Source: Ignatiev, Previti, Liffiton and Marques-Silva, Smallest MUS extraction with minimal hitting
set dualization, CP 2015, LNCS 9255:173-182 (from memory).
"""

from collections.abc import Collection

import numpy as np

from evsyn.extraction.flow.search import nearest, possible
from evsyn.extraction.flow.system import System, UnsettledError

ROUNDS = 300


def smallest_clash(system: System) -> tuple[int, ...]:
    """Return the numbers of the fewest lines that cannot all hold; none where all can.

    Parameters
    ----------
    system : System
        The rows of all lines.

    Returns
    -------
    tuple of int
        Numbers of lines, in order; of several smallest sets, one.

    Raises
    ------
    UnsettledError
        If the search was not finished, or its two ways disagree.
    """
    if possible(system, range(system.lines)):
        return ()
    removals: list[frozenset[int]] = []
    for _ in range(ROUNDS):
        fewest = _meeting(removals, system.lines)
        found = nearest(system, fewest)
        if found is None:
            if possible(system, fewest, presolve=False):
                raise UnsettledError
            return tuple(sorted(fewest))
        removals.append(found.broken)
    raise UnsettledError


def _meeting(removals: Collection[frozenset[int]], lines: int) -> frozenset[int]:
    """Return the fewest lines that share one with each removal."""
    from scipy.optimize import Bounds, LinearConstraint, milp

    if not removals:
        return frozenset()
    member = np.array([[line in removal for line in range(lines)] for removal in removals])
    result = milp(
        np.ones(lines),
        integrality=np.ones(lines),
        bounds=Bounds(0, 1),
        constraints=LinearConstraint(member.astype(float), 1, np.inf),
        options={"mip_rel_gap": 0.0},
    )
    if not result.success:
        raise UnsettledError
    return frozenset(np.flatnonzero(result.x > 0.5).tolist())
