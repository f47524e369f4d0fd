"""Ordinary new units as a short list of rates with weights, so that a page can place a count.

What reads the list needs to know nothing of how studies were pooled: the chance of a count is the
weighted sum of its binomial chances.
"""

from dataclasses import dataclass

import numpy as np

from evsyn.audit.nodes import nodes
from evsyn.audit.predictive import (
    Predictive,
    knows_spread,
    mixed,
    predictive,
    spread_used,
)
from evsyn.effects.arguments import Floats
from evsyn.pooling.answer import PoolAnswer

#: The list is good for units of up to this many cases.
MOST_LISTED = 400

#: No tail of such a unit may be off by more than this, so that four digits agree.
_OFF = 2e-6

#: Digits kept: a rate moves by less than 1e-7, and the weights still sum to 1 within 1e-8.
_DIGITS_LOG_ODDS, _DIGITS_WEIGHT = 6, 10

_TRIED = (25, 33, 49, 65, 97, 129, 193, 257, 385, 513, 769, 1025, 2049)
_SIZES = (1, 7, 40, 150, MOST_LISTED)


@dataclass(frozen=True, slots=True)
class Mixture:
    """The spread of rates over ordinary new units, as a list.

    Parameters
    ----------
    log_odds : tuple of float
        Log-odds of each rate, rising.
    weights : tuple of float
        Share of units at each; they sum to 1.
    k : int
        Number of studies.
    df : int or None
        Degrees of freedom of the t the list was made from; ``None`` for a beta-binomial row.
    mean : float
        Mean rate over settings, for expected counts; not the mean of the list, which a t with few
        degrees of freedom inflates.
    used_larger_spread : bool
        Whether the larger plausible spread stands in, since next to none was seen.
    has_enough_studies : bool
        Whether there are the five studies that a verdict needs.
    knows_spread : bool
        Whether anything is known of the spread; without it there is no verdict either.
    """

    log_odds: tuple[float, ...]
    weights: tuple[float, ...]
    k: int
    df: int | None
    mean: float
    used_larger_spread: bool
    has_enough_studies: bool
    knows_spread: bool

    def pmf(self, cases: int) -> Floats:
        """Return the chance of 0, 1, ..., ``cases`` events; shape ``(cases + 1,)``.

        Parameters
        ----------
        cases : int
            Number of cases, from 1 to ``MOST_LISTED``.
        """
        return mixed(cases, np.asarray(self.log_odds), np.asarray(self.weights))


def mixture(answer: PoolAnswer) -> Mixture | None:
    """List the rates of ordinary new units; ``None`` where nothing can be predicted.

    Parameters
    ----------
    answer : PoolAnswer
        A pool.

    Notes
    -----
    The shortest list is taken whose every tail, at sizes up to 400 cases, lies within 2e-6 of the
    one that :func:`evsyn.audit.predictive.predictive` gives.
    """
    reading = answer.reading
    if reading is None or not answer.show.pooled or spread_used(reading) is None:
        return None
    log_odds, weights = _shortest(predictive(reading, answer.k))
    return Mixture(
        log_odds=tuple(log_odds.tolist()),
        weights=tuple(weights.tolist()),
        k=answer.k,
        df=None if reading.rho else answer.k - 1,
        mean=reading.mean,
        used_larger_spread=spread_used(reading) is not reading.centre,
        has_enough_studies=answer.show.verdict,
        knows_spread=knows_spread(reading),
    )


def _shortest(units: Predictive) -> tuple[Floats, Floats]:
    exact = {size: np.cumsum(units.pmf(size)) for size in _SIZES}
    for count in _TRIED:
        log_odds, weights = _rounded(units, count)
        off = max(
            float(np.max(np.abs(np.cumsum(mixed(size, log_odds, weights)) - exact[size])))
            for size in _SIZES
        )
        if off < _OFF:
            return log_odds, weights
    raise ArithmeticError("no short list of rates gives the chances of the counts")


def _rounded(units: Predictive, count: int) -> tuple[Floats, Floats]:
    """Return nodes in the digits they are written in, those without weight left out."""
    deviates, weights = nodes(units.log_density, units.scale, count)
    log_odds = np.round(units.centre + units.scale * deviates, _DIGITS_LOG_ODDS)
    written = np.round(weights, _DIGITS_WEIGHT)
    # Beyond a log-odds of 30 every rate is 0 or 1 to all digits.
    held = np.clip(log_odds, -30.0, 30.0)
    kept = written > 0
    return held[kept], written[kept]
