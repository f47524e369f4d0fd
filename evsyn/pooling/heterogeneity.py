"""How far studies differ: Cochran's Q, and the share of variance that lies between them."""

import numpy as np
from numpy.typing import ArrayLike
from scipy import special

from evsyn.effects.arguments import Floats, as_level
from evsyn.pooling.studies import WeightedMean, weight_spread


def q_p_value(q: Floats, df: Floats) -> Floats:
    """Return the chance of a larger Q if all studies shared one true value.

    References
    ----------
    Cochran WG. Biometrics 1954;10:101-129.
    """
    return np.asarray(special.chdtrc(df, q), dtype=np.float64)


def typical_variance(common: WeightedMean, k: Floats) -> Floats:
    """Return the typical sampling variance, ``(k - 1) * sum(w) / (sum(w) ** 2 - sum(w ** 2))``.

    References
    ----------
    Higgins JPT, Thompson SG. Stat Med 2002;21:1539-1558, equation 9.
    """
    return np.asarray((k - 1) / weight_spread(common.weights), dtype=np.float64)


def i2_from_tau2(tau2: Floats, typical: Floats) -> Floats:
    """Return the share of variance between studies, ``tau2 / (tau2 + typical)``, 0 to 1."""
    return np.asarray(tau2 / (tau2 + typical), dtype=np.float64)


def i2_from_q(q: ArrayLike, df: ArrayLike) -> Floats:
    """Return the share of variance between studies, ``(Q - df) / Q`` cut at zero, 0 to 1.

    References
    ----------
    Higgins JPT, Thompson SG. Stat Med 2002;21:1539-1558.
    """
    q, df = np.asarray(q, dtype=np.float64), np.asarray(df, dtype=np.float64)
    return np.where(q > df, (q - df) / np.where(q > df, q, 1.0), 0.0)


def i2_test_based_interval(
    q: ArrayLike, k: ArrayLike, *, level: float = 0.95
) -> tuple[Floats, Floats]:
    """Return the test-based interval of I2 from Q, by way of ``ln H``.

    Parameters
    ----------
    q : array_like
        Cochran's Q of each analysis.
    k : array_like of int
        Number of studies of each analysis.
    level : float
        Two-sided level.

    Returns
    -------
    low, high : ndarray
        Limits of I2 between 0 and 1; ``nan`` where the standard error does not exist (fewer than
        two studies, or two with ``Q <= 2``).

    Raises
    ------
    ValueError
        If the level is not between 0 and 1.

    References
    ----------
    Higgins JPT, Thompson SG. Stat Med 2002;21:1539-1558, appendix A2.
    """
    q, k = np.broadcast_arrays(np.asarray(q, dtype=np.float64), np.asarray(k, dtype=np.float64))
    z = special.ndtri((1 + as_level(level)) / 2)
    low, high = np.full(q.shape, np.nan), np.full(q.shape, np.nan)
    spread_out, close = (q > k) & (k >= 2), (q <= k) & (k >= 3)
    log_h, se = np.zeros(q.shape), np.zeros(q.shape)
    above = q[spread_out], k[spread_out]
    log_h[spread_out] = 0.5 * np.log(above[0] / (above[1] - 1))
    se[spread_out] = log_h[spread_out] / (np.sqrt(2 * above[0]) - np.sqrt(2 * above[1] - 3))
    m = k[close] - 2
    # Below Q = k - 1 the point value of H is 1, so its logarithm starts at 0.
    log_h[close] = 0.5 * np.log(np.maximum(q[close] / (m + 1), 1.0))
    se[close] = np.sqrt((1 - 1 / (3 * m**2)) / (2 * m))
    for limit, sign in ((low, -1), (high, 1)):
        known = spread_out | close
        h2 = np.exp(2 * (log_h[known] + sign * z * se[known]))
        limit[known] = np.maximum(1 - 1 / h2, 0.0)
    return low, high
