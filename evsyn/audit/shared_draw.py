"""How many events ordinary new units would see over several levels together.

A unit's habits go with it from level to level, so one draw is shared by all of them: a unit that
stands high among its kind at one level stands as high at the others.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import reduce

import numpy as np
from scipy import special

from evsyn.audit.nodes import FINE, halfway, nodes, settled, student_log_density
from evsyn.audit.predictive import (
    beta_shapes,
    beta_width,
    predictive,
    same_rate,
)
from evsyn.audit.totals import totals
from evsyn.effects.arguments import Floats
from evsyn.pooling.answer import Reading


@dataclass(frozen=True, slots=True)
class LevelPool:
    """Cases of one level, and the pool they are set against.

    Parameters
    ----------
    cases : int
        The unit's cases at the level.
    reading : Reading
        The row that is read of its pool.
    k : int
        Number of studies of that pool.
    """

    cases: int
    reading: Reading
    k: int


@dataclass(frozen=True, slots=True, eq=False)
class SharedDraw:
    """One deviate for all levels of a unit.

    Parameters
    ----------
    cases : tuple of int
        Cases of each level.
    freedom : float
        Degrees of freedom of the deviate, which is Student's t.
    scale : float
        Widest spread of a level, log-odds.
    rates : tuple of callable
        Rate of each level as a function of the deviate; takes and returns an array.
    """

    cases: tuple[int, ...]
    freedom: float
    scale: float
    rates: tuple[Callable[[Floats], Floats], ...]

    def pmf(self) -> Floats:
        """Return the chance of 0, 1, ..., all cases; shape ``(all cases + 1,)``.

        Raises
        ------
        ArithmeticError
            If the chances do not settle.
        """
        cases = np.asarray(self.cases, dtype=np.int64)
        return settled(
            student_log_density(self.freedom),
            self.scale,
            lambda deviates, weights: totals(cases, self._at(deviates), weights),
        )[2]

    def share_above(self, events: float) -> float:
        """Return the share of new units whose own rates would give more events than this."""
        deviates, weights = nodes(student_log_density(self.freedom), self.scale, FINE)
        expected = self._at(deviates) @ np.asarray(self.cases)
        # Expected counts rise with the deviate; where no level has spread there is one of them.
        if expected[-1] <= expected[0]:
            return float(expected[0] > events)
        return float(1 - np.interp(events, expected, halfway(weights)))

    def _at(self, deviates: Floats) -> Floats:
        return np.stack([rate(deviates) for rate in self.rates], axis=1)


def shared_draw(levels: Sequence[LevelPool]) -> SharedDraw:
    """Return ordinary new units, one deviate shared by all levels.

    At each level the log-odds is ``mu + sqrt(tau^2 + se^2) T``, with the larger plausible spread
    where next to none was seen, and T has one degree of freedom less than the smallest pool has
    studies. A beta-binomial row is met at the quantile of its beta distribution that has T's own
    probability, so that alone it predicts by its own distribution.

    Parameters
    ----------
    levels : sequence of LevelPool
        The levels; every pool has a row that can predict.

    Raises
    ------
    ValueError
        As :func:`evsyn.audit.predictive.predictive`.
    """
    freedom = float(min(level.k for level in levels) - 1)
    scales, rates = [], []
    for level in levels:
        units = predictive(level.reading, level.k)
        if level.reading.rho:
            alpha, beta = beta_shapes(level.reading.mean, level.reading.rho)
            scales.append(beta_width(alpha, beta))
            rates.append(_beta_rate(alpha, beta, freedom))
        else:
            scales.append(units.scale)
            rates.append(_logit_rate(units.centre, units.scale))
    return SharedDraw(tuple(level.cases for level in levels), freedom, max(scales), tuple(rates))


def shared_typical(levels: Sequence[LevelPool]) -> SharedDraw:
    """Return units that share the typical rate of each level; only doubt about it is left."""
    freedom = float(min(level.k for level in levels) - 1)
    alike = [same_rate(level.reading, level.k) for level in levels]
    return SharedDraw(
        cases=tuple(level.cases for level in levels),
        freedom=freedom,
        scale=max(units.scale for units in alike),
        rates=tuple(_logit_rate(units.centre, units.scale) for units in alike),
    )


def separate_draws(levels: Sequence[LevelPool]) -> Floats:
    """Return the chance of each total if every level were drawn for itself."""
    each = [shared_draw([level]).pmf() for level in levels]
    return np.asarray(reduce(np.convolve, each), dtype=np.float64)


def _logit_rate(centre: float, scale: float) -> Callable[[Floats], Floats]:
    def rate(deviate: Floats) -> Floats:
        return np.asarray(special.expit(centre + scale * deviate), dtype=np.float64)

    return rate


def _beta_rate(alpha: float, beta: float, freedom: float) -> Callable[[Floats], Floats]:
    def rate(deviate: Floats) -> Floats:
        # Each side from its own tail, since 1 minus a small chance loses it.
        tail = special.stdtr(freedom, -np.abs(deviate))
        low = special.betaincinv(alpha, beta, tail)
        high = special.betainccinv(alpha, beta, tail)
        return np.asarray(np.where(deviate < 0, low, high), dtype=np.float64)

    return rate
