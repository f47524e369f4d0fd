"""Climb a smooth function to a maximum by safeguarded Newton steps, inside a box."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np

from evsyn.effects.arguments import Floats

Surface: TypeAlias = Callable[[Floats], tuple[float, Floats, Floats]]
"""A point (p,) to its value, gradient (p,) and matrix of second derivatives (p, p)."""

_STEPS = 120
_HALVINGS = 12
_LONGEST_STEP = 1.0
# Below this expected gain the plain Newton step is taken without asking for a higher value:
# there, rounding in the value would otherwise refuse good steps.
_NEAR = 1e-4


@dataclass(frozen=True, slots=True)
class Summit:
    """Where a climb ended.

    Parameters
    ----------
    point : ndarray, shape (p,)
        The end point.
    value : float
        The function there.
    hessian : ndarray, shape (p, p)
        Second derivatives there.
    converged : bool
        Whether the last step was below the tolerance and no side of the box was touched.
    """

    point: Floats
    value: float
    hessian: Floats
    converged: bool


def climb(
    surface: Surface, start: Floats, *, low: Floats, high: Floats, tolerance: float = 1e-9
) -> Summit:
    """Climb from a start to a local maximum.

    Newton steps with every curvature taken as negative (so that each step goes uphill), no
    component longer than 1, halved until the value rises. A point that reaches a side of the
    box ends the climb, not converged. Method: Nocedal and Wright, Numerical Optimization
    (2006), section 3.4, from memory.

    Parameters
    ----------
    surface : callable
        Point to value, gradient and second derivatives.
    start, low, high : ndarray, shape (p,)
        First point and the sides of the box; p may be 0.
    tolerance : float
        Length of a step, in its longest component, at which the climb ends.

    Returns
    -------
    Summit
        End point; ``converged`` is false when the tolerance was not reached.
    """
    point = np.clip(start, low, high)
    value, gradient, hessian = surface(point)
    for _ in range(_STEPS if point.size else 0):
        step, gain = _uphill(gradient, hessian)
        if np.abs(step).max() < tolerance:
            break
        for _ in range(_HALVINGS):
            trial = np.clip(point + step, low, high)
            at_trial = surface(trial)
            if at_trial[0] > value or gain < _NEAR:
                break
            step = step / 2
        else:
            return Summit(point, value, hessian, converged=False)
        point, (value, gradient, hessian) = trial, at_trial
        if np.any(point <= low) or np.any(point >= high):
            return Summit(point, value, hessian, converged=False)
    else:
        return Summit(point, value, hessian, converged=not point.size)
    return Summit(point, value, hessian, converged=True)


def is_higher(value: float, other: float) -> bool:
    """Return whether a log-likelihood is higher than another by more than rounding."""
    return value > other + 1e-12 * (1 + abs(other))


def _uphill(gradient: Floats, hessian: Floats) -> tuple[Floats, float]:
    """Return a step that rises, none longer than allowed, and the gain expected of it."""
    curvature, axes = np.linalg.eigh(hessian)
    size = np.abs(curvature)
    along = axes.T @ gradient
    step = axes @ (along / np.maximum(size, 1e-12 * max(1.0, float(size.max()))))
    longest = float(np.abs(step).max())
    if longest > _LONGEST_STEP:
        return step * (_LONGEST_STEP / longest), np.inf
    gain = float(gradient @ step) if np.all(curvature < 0) else np.inf
    return step, gain
