"""The prediction interval: where the true value of one more study is expected."""

import numpy as np
from numpy.typing import ArrayLike
from scipy import special

from evsyn.effects.arguments import Floats, as_level, known_word

#: What is taken from the number of studies to give the degrees of freedom, by public name.
DEGREES_OF_FREEDOM = {"k-1": 1, "k-2": 2}


def prediction_interval(
    estimate: ArrayLike,
    se: ArrayLike,
    tau2: ArrayLike,
    k: ArrayLike,
    *,
    level: float = 0.95,
    df: str = "k-1",
) -> tuple[Floats, Floats, Floats]:
    """Return ``estimate -+ t(df) * sqrt(tau2 + se ** 2)`` on the analysis scale.

    Parameters
    ----------
    estimate, se, tau2 : array_like
        Pooled estimate, its ordinary (model) standard error, and between-study variance.
    k : array_like of int
        Number of studies.
    level : float
        Two-sided level.
    df : {"k-1", "k-2"}
        Degrees of freedom; ``k-2`` is the older convention, offered to match print.

    Returns
    -------
    low, high : ndarray
        Limits; ``nan`` where the degrees of freedom are below 1.
    df : ndarray
        Degrees of freedom used; ``nan`` where there are none.

    Raises
    ------
    ValueError
        If the level is not between 0 and 1 or ``df`` is not known.

    References
    ----------
    Higgins JPT, Thompson SG, Spiegelhalter DJ. J R Stat Soc A 2009;172:137-159 (k - 2 degrees of
    freedom); IntHout J et al. BMJ Open 2016;6:e010247 (use).
    """
    taken = DEGREES_OF_FREEDOM[known_word("df", df, DEGREES_OF_FREEDOM)]
    freedom = np.asarray(k, dtype=np.float64) - taken
    freedom = np.where(freedom >= 1, freedom, np.nan)
    t = special.stdtrit(freedom, (1 + as_level(level)) / 2)
    centre = np.asarray(estimate, dtype=np.float64)
    half = t * np.sqrt(np.asarray(tau2, dtype=np.float64) + np.asarray(se, dtype=np.float64) ** 2)
    return centre - half, centre + half, freedom
