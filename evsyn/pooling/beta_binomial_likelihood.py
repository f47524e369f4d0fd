"""Likelihood of the beta-binomial model, as sums that stay exact when the spread is nil.

With mean m and phi = rho / (1 - rho) the chance of x events in n is

    C(n, x) prod_{j < x} (m + j phi) prod_{j < n - x} (1 - m + j phi) / prod_{j < n} (1 + j phi)

so the log-likelihood of all studies is a sum over j, each logarithm counted once for every study
that reaches it. Differences of log-gamma functions, the usual form, lose all digits as rho goes to
0 (Griffiths, Biometrics 1973;29:637-648, for the product form; from memory).
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import expit

from evsyn.effects.arguments import Floats
from evsyn.pooling.binomial_normal.counts import Counts

#: The sums run over every number up to the largest total.
LARGEST_TOTAL = 10_000_000


@dataclass(frozen=True, slots=True)
class Reaches:
    """How many studies reach each number, shapes ``(largest count,)``.

    Parameters
    ----------
    events, others, total : ndarray
        Entry j: number of studies with more than j events, non-events, patients.
    coefficient : float
        Sum of the log binomial coefficients.
    """

    events: Floats
    others: Floats
    total: Floats
    coefficient: float


def reaches(counts: Counts) -> Reaches:
    """Return the counts in the form of the sums.

    Raises
    ------
    ValueError
        If a total is above ten million.
    """
    if counts.total.max() > LARGEST_TOTAL:
        raise ValueError(f"total must not exceed {LARGEST_TOTAL:,} in the beta-binomial model")
    return Reaches(
        _more_than(counts.events),
        _more_than(counts.total - counts.events),
        _more_than(counts.total),
        float(counts.log_coefficient.sum()),
    )


def log_likelihood(counts: Reaches, logit_mean: float, phi: float) -> tuple[float, Floats, Floats]:
    """Return the log-likelihood, its gradient and second derivatives in (logit m, phi)."""
    mean, rest = float(expit(logit_mean)), float(expit(-logit_mean))
    value_1, slope_1, bend_1 = _log_sum(counts.events, mean, phi)
    value_0, slope_0, bend_0 = _log_sum(counts.others, rest, phi)
    value_n, slope_n, bend_n = _log_sum(counts.total, 1.0, phi)
    by_mean, by_phi = slope_1[0] - slope_0[0], slope_1[1] + slope_0[1] - slope_n[1]
    width = mean * rest  # derivative of the mean in its logit
    by_logit2 = width**2 * (bend_1[0] + bend_0[0]) + width * (rest - mean) * by_mean
    by_both = width * (bend_1[1] - bend_0[1])
    by_phi2 = bend_1[2] + bend_0[2] - bend_n[2]
    value = counts.coefficient + value_1 + value_0 - value_n
    hessian = np.array([[by_logit2, by_both], [by_both, by_phi2]])
    return value, np.array([width * by_mean, by_phi]), hessian


def _more_than(values: Floats) -> Floats:
    """Return, for j = 0, 1, ..., how many values are above j."""
    whole: NDArray[np.intp] = values.astype(np.intp)
    at = np.bincount(whole, minlength=1)
    return np.asarray(values.size - np.cumsum(at)[:-1], dtype=np.float64)


def _log_sum(
    reached: Floats, start: float, phi: float
) -> tuple[float, tuple[float, float], tuple[float, float, float]]:
    """Return sum c_j log(start + j phi) with its derivatives in start and phi.

    First derivatives by (start, phi), second by (start start, start phi, phi phi).
    """
    j = np.arange(reached.size)
    term = start + j * phi
    share = reached / term
    bend = -share / term
    return (
        float(reached @ np.log(term)),
        (float(share.sum()), float(share @ j)),
        (float(bend.sum()), float(bend @ j), float(bend @ j**2)),
    )
