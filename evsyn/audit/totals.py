"""How likely each total is, of cases that do not all have the same rate."""

import math

import numpy as np
from numpy.typing import NDArray

from evsyn.effects.arguments import Floats

#: Half-width of the totals kept for given rates, in square roots of the cases. A total lies
#: farther from its mean with a chance below ``2 exp(-2 * 4.5**2)``, about 5e-18 (Hoeffding 1963).
_REACH = 4.5

#: Below this variance a total is one number.
_NO_VARIANCE = 1e-12

#: Chances held in memory at once.
_BLOCK = 500_000


def totals(cases: NDArray[np.int64], rates: Floats, weights: Floats) -> Floats:
    """Return the chance of each total over all levels, averaged over nodes.

    Given the rates of a node, the levels are independent binomials, and their sum has the Poisson
    binomial distribution.

    Parameters
    ----------
    cases : ndarray of int
        Cases of each level, shape ``(levels,)``.
    rates : ndarray
        Rate of each level at each node, shape ``(nodes, levels)``.
    weights : ndarray
        Weights of the nodes, shape ``(nodes,)``; they sum to 1.

    Returns
    -------
    ndarray
        Chance of 0, 1, ..., all cases; shape ``(sum of cases + 1,)``.

    Notes
    -----
    By the discrete Fourier transform of the product of the levels' characteristic functions, as
    exact as rounding allows (about 1e-15 a chance).

    References
    ----------
    Hong Y. Comput Stat Data Anal 2013;59:41-51 (the transform).
    """
    n = int(cases.sum())
    width = min(n + 1, 2 * math.ceil(_REACH * math.sqrt(n)) + 1)
    middle = rates @ cases
    spread = (rates * (1 - rates)) @ cases >= _NO_VARIANCE
    point = np.rint(middle[~spread]).astype(np.int64)
    mixed = np.zeros(n + 1)
    np.add.at(mixed, point, weights[~spread])
    nodes = np.flatnonzero(spread)
    for part in np.array_split(nodes, max(1, -(-nodes.size * width // _BLOCK))):
        first = np.clip(np.rint(middle[part]).astype(np.int64) - width // 2, 0, n + 1 - width)
        chances = _given(cases, rates[part], width) * weights[part][:, np.newaxis]
        # The transform wraps round: entry r holds the one kept total that leaves r over.
        over = np.arange(width)[np.newaxis, :]
        place = first[:, np.newaxis] + (over - first[:, np.newaxis]) % width
        mixed += np.bincount(place.ravel(), weights=chances.ravel(), minlength=n + 1)
    return np.maximum(mixed, 0.0)


def _given(cases: NDArray[np.int64], rates: Floats, width: int) -> Floats:
    """Return the chances of the totals, wrapped round at ``width``; shape ``(nodes, width)``."""
    turn = 2 * np.pi * np.arange(width // 2 + 1) / width
    sine, lack = np.sin(turn), 1 - np.cos(turn)
    log_size = np.zeros((rates.shape[0], turn.size))
    angle = np.zeros_like(log_size)
    for n, rate in zip(cases.tolist(), rates.T, strict=True):
        p = rate[:, np.newaxis]
        squared = 1 - 2 * p * (1 - p) * lack
        log_size += n / 2 * np.log(np.maximum(squared, 1e-300))
        angle += n * np.arctan2(p * sine, 1 - p * lack)
    return np.asarray(np.fft.irfft(np.exp(log_size - 1j * angle), n=width, axis=1))
