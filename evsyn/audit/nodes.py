"""Average over one random draw by nodes and weights, fine enough that no chance moves."""

from collections.abc import Callable
from typing import TypeAlias

import numpy as np

from evsyn.effects.arguments import Floats

#: Takes deviates and their weights, and returns what is averaged, summed with those weights.
Average: TypeAlias = Callable[[Floats, Floats], Floats]

#: No chance of a count may move by more than this when the nodes are doubled.
_MOVES = 1e-8

#: Nodes for shares and quantiles, which a straight line between nodes then gives to five digits.
FINE = 2**14 + 1

#: Weights below e to minus this share of the largest are left out.
_DROPPED = 34.0


def nodes(
    log_density: Callable[[Floats], Floats], scale: float, count: int
) -> tuple[Floats, Floats]:
    """Return deviates and weights that hold all but a trace of a density.

    Parameters
    ----------
    log_density : callable
        Logarithm, up to a constant, of the density of the deviate; takes and returns an array.
    scale : float
        Change in log-odds a unit of the deviate makes, at its largest.
    count : int
        Number of nodes.

    Returns
    -------
    deviates, weights : ndarray
        Shape ``(count,)``, the deviates rising; the weights sum to 1.

    Notes
    -----
    Trapezoid sums over ``u`` with the deviate proportional to ``sinh(u)``: heavy tails become
    exponential ones, so the sums converge faster than any power of the number of nodes. A wide
    spread must not carry the nodes past where the rate turns, which spans log-odds of about 1
    whatever the spread, so the deviate is shortened by the scale.
    """
    stretch = min(1.0, 1 / scale) if scale > 0 else 1.0

    def log_weight(u: Floats) -> Floats:
        return log_density(stretch * np.sinh(u)) + np.log(np.cosh(u))

    wide = np.linspace(-36.0, 36.0, 721)
    at_wide = log_weight(wide)
    kept = wide[at_wide > at_wide.max() - _DROPPED]
    u = np.linspace(float(kept[0]) - 0.1, float(kept[-1]) + 0.1, count)
    logs = log_weight(u)
    weights = np.exp(logs - logs.max())
    return stretch * np.sinh(u), weights / weights.sum()


def settled(
    log_density: Callable[[Floats], Floats], scale: float, average: Average
) -> tuple[Floats, Floats, Floats]:
    """Return nodes, doubled until an average over them settles, and that average.

    Parameters
    ----------
    log_density, scale
        As in :func:`nodes`.
    average : callable
        What is averaged: a weighted sum over the deviates it is given.

    Returns
    -------
    deviates, weights : ndarray
        As from :func:`nodes`.
    averaged : ndarray
        The average; doubling the nodes moves no entry by more than 1e-8.

    Raises
    ------
    ArithmeticError
        If it does not settle.
    """
    before: Floats | None = None
    for doubling in range(7, 16):
        deviates, weights = nodes(log_density, scale, 2**doubling + 1)
        averaged = average(deviates, weights)
        if before is not None and np.max(np.abs(averaged - before)) < _MOVES:
            return deviates, weights, averaged
        before = averaged
    raise ArithmeticError("the chances of the counts did not settle")


def halfway(weights: Floats) -> Floats:
    """Return the share of the density below each node."""
    return np.asarray(np.cumsum(weights) - weights / 2, dtype=np.float64)


def student_log_density(freedom: float) -> Callable[[Floats], Floats]:
    """Return the log density of Student's t, up to a constant."""

    def log_density(deviate: Floats) -> Floats:
        return -(freedom + 1) / 2 * np.log1p(deviate**2 / freedom)

    return log_density
