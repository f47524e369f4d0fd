"""Whether units differ around a fixed target by more than chance allows.

For a funnel of several units around a fixed target only. Set against pooled evidence a unit is
judged by the spread between the studies, and the two are never mixed on one figure.
"""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike
from scipy import special

from evsyn.audit.power import Counts
from evsyn.effects.arguments import Floats

#: Fewer units than this are not asked.
LEAST_UNITS = 10

#: Share of units drawn in at either end for the second, sturdier figure.
DRAWN_IN = 0.1


@dataclass(frozen=True, slots=True)
class Overdispersion:
    """How much units differ around a fixed target.

    Parameters
    ----------
    units : int
        Number of units.
    phi : float
        Mean squared standardised distance from the target; 1 where only chance acts.
    phi_drawn_in : float
        The same with the most extreme tenth at either end drawn in to the next unit; it averages
        below 1 where only chance acts, so it is shown beside ``phi`` and settles nothing.
    trigger : float
        The value ``phi`` must pass.
    tau : float
        Spread between units over and above chance, as a standard deviation of the share.
    """

    units: int
    phi: float
    phi_drawn_in: float
    trigger: float
    tau: float

    @property
    def is_triggered(self) -> bool:
        """Whether the units differ by more than chance allows."""
        return self.phi > self.trigger

    def limits(self, sizes: Counts, rate: float, tail: float) -> tuple[Floats, Floats]:
        """Return normal limits widened for the spread between units, as shares.

        They may lie below 0 or above 1, where they bound nothing.
        """
        z = float(special.ndtri(1 - tail))
        wide = z * np.sqrt(rate * (1 - rate) / sizes + self.tau**2)
        return rate - wide, rate + wide


def overdispersion(events: ArrayLike, totals: ArrayLike, rate: float) -> Overdispersion | None:
    """Return how much units differ around a fixed target; ``None`` below ten units.

    Parameters
    ----------
    events, totals : array_like of int
        Counts of the units, shape ``(units,)``, each of another unit.
    rate : float
        The target, set from outside and not from these counts.

    Notes
    -----
    With ``s_i`` the binomial standard error at the target, ``z_i = (y_i - t) / s_i`` and
    ``phi`` the mean of ``z_i ** 2``; the trigger is ``1 + 2 sqrt(2 / I)``. Since the target is not
    estimated from the units, the additive spread is ``(I phi - I) / sum(1 / s_i ** 2)``, cut at 0:
    the expected value of ``sum(z_i ** 2)`` is ``I + tau ** 2 sum(1 / s_i ** 2)``.

    References
    ----------
    Spiegelhalter DJ. Stat Med 2005;24:1185-1202, and Qual Saf Health Care 2005;14:347-351
    (from memory); the form for a target from outside follows from the expectation above.
    """
    x, n = np.asarray(events, dtype=np.float64), np.asarray(totals, dtype=np.float64)
    if x.shape != n.shape or x.ndim != 1:
        raise ValueError("events and totals must be two rows of the same length")
    units = x.size
    if units < LEAST_UNITS:
        return None
    variance = rate * (1 - rate) / n
    z = (x / n - rate) / np.sqrt(variance)
    phi = float(np.mean(z**2))
    tau2 = (units * phi - units) / float(np.sum(1 / variance))
    return Overdispersion(
        units=units,
        phi=phi,
        phi_drawn_in=float(np.mean(_drawn_in(z) ** 2)),
        trigger=1 + 2 * math.sqrt(2 / units),
        tau=math.sqrt(max(0.0, tau2)),
    )


def _drawn_in(z: Floats) -> Floats:
    """Set the lowest and highest tenth to the values next to them."""
    ordered = np.sort(z)
    k = int(DRAWN_IN * z.size)
    return np.clip(ordered, ordered[k], ordered[z.size - 1 - k])
