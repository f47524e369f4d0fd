"""Whether one typing of the rows, each within its rounding, gives every printed number at once."""

from collections.abc import Sequence

import numpy as np

from evsyn.reproduction.compare import Check
from evsyn.reproduction.rounding import moved_numbers, steps_of
from evsyn.reproduction.rows import Rows
from evsyn.reproduction.variants import Variant

#: Steps of the search, and the share of a rounding by which an input is moved to see its effect.
_ROUNDS = 12
_PROBE = 0.02
#: How far inside the ends of a printed number the search aims, as a share of half a unit.
_INSIDE = 0.3


def fit_together(rows: Rows, variant: Variant, checks: Sequence[Check]) -> bool:
    """Search for inputs, each anywhere within its rounding, that give all that is printed.

    Parameters
    ----------
    rows : Rows
        Means or given effects.
    variant : Variant
        How to pool.
    checks : sequence of Check
        Every printed number, each of which fits by itself.

    Returns
    -------
    bool
        True is certain: such inputs were found. False says only that the search found none.

    Notes
    -----
    Least squares within bounds on the numbers that are not yet as printed, made straight about the
    last inputs, a dozen times.
    """
    from scipy.optimize import lsq_linear

    steps = steps_of(rows)
    places = [check.place for check in checks]
    # What is printed without its sign is compared without it.
    ends = np.array([_ends(check) for check in checks])
    halves = np.array([check.item.number.half for check in checks])
    inside = _INSIDE * halves * np.isfinite(ends).all(axis=1)
    at = np.zeros(steps.shape[1])
    for _ in range(_ROUNDS):
        inward = _PROBE * np.where(at > 0, -1.0, 1.0)
        probes = np.vstack([at, at + np.diag(inward)])
        numbers = moved_numbers(rows, variant, np.einsum("ti,cis->cts", probes, steps))
        found = np.array([numbers[place] for place in places])
        now = found[:, 0]
        if np.all((now >= ends[:, 0]) & (now <= ends[:, 1])):
            return True
        slopes = (found[:, 1:] - now[:, np.newaxis]) / inward
        wanted = np.clip(now, ends[:, 0] + inside, ends[:, 1] - inside)
        step = lsq_linear(
            slopes / halves[:, np.newaxis],
            (wanted - now) / halves + slopes @ at / halves,
            bounds=(-1, 1),
        )
        at = np.asarray(step.x, dtype=np.float64)
    return False


def _ends(check: Check) -> tuple[float, float]:
    number = check.item.number
    slack = 1e-9 * max(1.0, abs(number.value))
    low, high = number.low - slack, number.high + slack
    return (-high, -low) if check.turned else (low, high)
