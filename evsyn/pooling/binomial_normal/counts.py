"""Events and totals in the form the likelihood reads."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import expit, gammaln, logit

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

    @property
    def crude(self) -> float:
        """Log-odds of the crude total, half added to events and non-events."""
        return float(logit((self.events.sum() + 0.5) / (self.total.sum() + 1)))

    @property
    def largest_variance(self) -> Floats:
        """Largest variance the events of each study can have, at log-odds 0."""
        return self.total / 4

    @property
    def observed(self) -> tuple[Floats, Floats]:
        """Each study's own log-odds and its variance, half added to events and non-events."""
        yes, no = self.events + 0.5, self.total - self.events + 0.5
        return np.log(yes / no), 1 / yes + 1 / no

    def log_mass(self, log_odds: Floats) -> Floats:
        """Return the log chance of the events without its coefficient, shape ``(k, points)``."""
        x, n = self.events[:, None], self.total[:, None]
        # Two terms of one sign, so nothing cancels however large the total.
        mass: Floats = -x * np.logaddexp(0, -log_odds) - (n - x) * np.logaddexp(0, log_odds)
        return mass

    def moments(self, log_odds: Floats) -> tuple[Floats, Floats]:
        """Return events less their expectation, and their variance, shape ``(k, points)``."""
        chance, n = expit(log_odds), self.total[:, None]
        return self.events[:, None] - n * chance, n * chance * expit(-log_odds)

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
