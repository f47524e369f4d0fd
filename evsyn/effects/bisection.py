"""Vectorised bisection, so that no optimiser need be imported."""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from evsyn.effects.arguments import Floats

#: Halvings allowed: enough to come down 60 powers of ten when a root lies close to ``low``.
_MOST_STEPS = 250

#: Width at which a bracket counts as closed, relative to its upper end.
_RELATIVE_WIDTH = 5e-16


def bisect_decreasing(
    function: Callable[[Floats], Floats], low: Floats, high: Floats
) -> tuple[Floats, NDArray[np.bool_]]:
    """Find where each of many decreasing functions crosses zero.

    Parameters
    ----------
    function : callable
        Takes one trial value per problem and returns the function values, same shape.
    low, high : ndarray
        Bracket of each problem, non-negative: ``function`` is at least 0 at ``low`` and at most 0
        at ``high``.

    Returns
    -------
    root : ndarray
        The crossing, to rounding.
    found : ndarray of bool
        False where the bracket held no sign change or did not close.
    """
    low, high = low.copy(), high.copy()
    found = (function(low) >= 0) & (function(high) <= 0)
    for _ in range(_MOST_STEPS):
        if np.all(high - low <= _RELATIVE_WIDTH * high):
            break
        middle = 0.5 * (low + high)
        is_above = function(middle) > 0
        low = np.where(is_above, middle, low)
        high = np.where(is_above, high, middle)
    root = 0.5 * (low + high)
    return root, found & np.isfinite(root)
