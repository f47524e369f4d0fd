"""From what a paper prints to an estimate with its standard error.

All functions take and return arrays (or numbers) in any one shape. Ratios are converted on the
logarithmic scale: ask for ``ratio=True`` and what comes back belongs to the logarithm. Nothing
here should be fed rounded intermediate values.
"""

import numpy as np
from numpy.typing import ArrayLike
from scipy import special

from evsyn.effects.arguments import Floats, as_level

#: Below this number of patients in a group, t is used instead of the normal distribution.
SMALL_GROUP = 60


def small_group_df(total_1: int, total_2: int) -> int | None:
    """Return the degrees of freedom to use for a difference of two means, or None for the normal.

    Parameters
    ----------
    total_1, total_2 : int
        Patients of each group.

    Returns
    -------
    int or None
        ``total_1 + total_2 - 2`` where a group has fewer than 60 patients, else ``None``.

    References
    ----------
    Cochrane Handbook for Systematic Reviews of Interventions 5.1.0, section 7.7.3.2.
    """
    return total_1 + total_2 - 2 if min(total_1, total_2) < SMALL_GROUP else None


def se_from_interval(
    low: ArrayLike,
    high: ArrayLike,
    *,
    level: float = 0.95,
    df: ArrayLike | None = None,
    ratio: bool = False,
) -> Floats:
    """Return the standard error behind an interval, its width over twice the quantile.

    Parameters
    ----------
    low, high : array_like
        Limits as printed.
    level : float
        Two-sided level of the interval.
    df : array_like, optional
        Degrees of freedom of t, for small groups; the normal distribution by default.
    ratio : bool
        Whether the limits are of a ratio, so that logarithms are taken first.

    Raises
    ------
    ValueError
        If a limit is not finite, limits are not in order, a limit of a ratio is not above 0, df
        is below 1, or the level is not between 0 and 1.

    References
    ----------
    Cochrane Handbook for Systematic Reviews of Interventions 5.1.0, sections 7.7.7.2-3, 7.7.3.2.
    """
    lower, upper = _on_scale("low", low, ratio), _on_scale("high", high, ratio)
    if np.any(upper <= lower):
        raise ValueError("high must be above low")
    return np.asarray((upper - lower) / (2 * _quantile((1 + as_level(level)) / 2, df)))


def se_from_p(
    estimate: ArrayLike, p: ArrayLike, *, df: ArrayLike | None = None, ratio: bool = False
) -> Floats:
    """Return the standard error behind a two-sided P value, ``|estimate|`` over its quantile.

    Parameters
    ----------
    estimate : array_like
        Difference, or ratio with ``ratio=True``.
    p : array_like
        Two-sided P value.
    df : array_like, optional
        Degrees of freedom of t, where the P value is of a t test.
    ratio : bool
        Whether the estimate is a ratio, so that its logarithm is taken first.

    Raises
    ------
    ValueError
        If a P value is not between 0 and 1, an estimate is at its null value (which leaves the
        standard error open), a ratio is not above 0, or df is below 1.

    References
    ----------
    Cochrane Handbook for Systematic Reviews of Interventions 5.1.0, sections 7.7.3.3 and 7.7.7.2;
    Altman DG, Bland JM. BMJ 2011;343:d2090 (which uses an approximate quantile).
    """
    value = np.abs(_on_scale("estimate", estimate, ratio))
    tail = np.asarray(p, dtype=np.float64)
    if not np.all((tail > 0) & (tail < 1)):
        raise ValueError("p must lie between 0 and 1")
    if np.any(value == 0):
        raise ValueError("estimate must differ from its null value")
    return np.asarray(value / -_quantile(tail / 2, df), dtype=np.float64)


def common_sd(se: ArrayLike, total_1: ArrayLike, total_2: ArrayLike) -> Floats:
    """Return the standard deviation shared by two groups from the standard error of a difference.

    References
    ----------
    Cochrane Handbook for Systematic Reviews of Interventions 5.1.0, section 7.7.3.3.
    """
    size = 1 / np.asarray(total_1, dtype=np.float64) + 1 / np.asarray(total_2, dtype=np.float64)
    return np.asarray(np.asarray(se, dtype=np.float64) / np.sqrt(size))


def _on_scale(name: str, values: ArrayLike, ratio: bool) -> Floats:
    read = np.asarray(values, dtype=np.float64)
    if not np.all(np.isfinite(read)):
        raise ValueError(f"{name} must hold finite numbers")
    if ratio and np.any(read <= 0):
        raise ValueError(f"{name} of a ratio must be above 0")
    return np.asarray(np.log(read)) if ratio else read


def _quantile(chance: ArrayLike, df: ArrayLike | None) -> Floats:
    if df is None:
        return np.asarray(special.ndtri(chance), dtype=np.float64)
    freedom = np.asarray(df, dtype=np.float64)
    if not np.all(freedom >= 1):
        raise ValueError("df must be at least 1")
    return np.asarray(special.stdtrit(freedom, chance), dtype=np.float64)
