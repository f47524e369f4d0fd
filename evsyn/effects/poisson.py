"""The exact interval of a count that could have been any number."""

import numpy as np
from numpy.typing import ArrayLike
from scipy import special

from evsyn.effects.arguments import Floats, as_level, as_vector


def exact_poisson(events: ArrayLike, *, level: float = 0.95) -> tuple[Floats, Floats]:
    """Return the exact two-sided interval of a Poisson mean from the two tails.

    Parameters
    ----------
    events : array_like of int
        Counts, shape ``(counts,)``.
    level : float
        Two-sided level; each tail holds ``(1 - level) / 2``, also where no event was seen.

    Returns
    -------
    low, high : ndarray
        Limits as numbers of events; over an expected number they are those of the ratio.

    Raises
    ------
    ValueError
        If a count is not a whole number from 0 up, or the level is not between 0 and 1.

    References
    ----------
    Ulm K. Am J Epidemiol 1990;131:373-375.
    """
    x = as_vector("events", events)
    if np.any((x < 0) | (x != np.floor(x)) | ~np.isfinite(x)):
        raise ValueError(f"events must be whole numbers from 0 up; got {events!r}")
    tail = (1 - as_level(level)) / 2
    # A gamma shape of 0 is not defined, so the closed end is set and not solved.
    low = np.where(x == 0, 0.0, special.gammaincinv(np.maximum(x, 1), tail))
    high = special.gammainccinv(x + 1, tail)
    return low, high
