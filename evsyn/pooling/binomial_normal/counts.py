"""Events and totals in the form the likelihood reads."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import gammaln

from evsyn.effects.arguments import Floats, as_counts


@dataclass(frozen=True, slots=True)
class Counts:
    """Events of total in k studies.

    Parameters
    ----------
    events, total : ndarray, shape (k,)
        Whole numbers held as floats.
    log_coefficient : ndarray, shape (k,)
        Logarithm of the number of ways to choose the events.
    """

    events: Floats
    total: Floats
    log_coefficient: Floats

    @property
    def k(self) -> int:
        """Number of studies."""
        return int(self.events.size)

    @property
    def one_sided(self) -> bool:
        """Whether all events are 0 or all are full (also of no study): no model can be fitted."""
        return bool(not self.events.any() or (self.events == self.total).all())

    def take(self, chosen: NDArray[np.bool_]) -> "Counts":
        """Return the studies chosen by a mask of shape (k,)."""
        return Counts(self.events[chosen], self.total[chosen], self.log_coefficient[chosen])


def read_counts(events: ArrayLike, total: ArrayLike) -> Counts:
    """Return checked events and totals with their binomial coefficients.

    Raises
    ------
    ValueError
        If the counts are impossible.
    """
    x, n = as_counts(events, total)
    return Counts(x, n, gammaln(n + 1) - gammaln(x + 1) - gammaln(n - x + 1))
