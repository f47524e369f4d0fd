"""How many events ordinary new units of a given size would see.

A new unit's log-odds is drawn around the pooled centre, and its count is binomial given that
log-odds. The draw is held as nodes with weights, so that whatever averages over units (a count,
a rate, next year's count after this year's) is one weighted sum.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from scipy import special

from evsyn.audit.nodes import FINE, halfway, nodes, settled, student_log_density
from evsyn.effects.arguments import Floats
from evsyn.pooling.answer import Centre, Reading

#: Above this the distribution of a count is not formed.
MOST_CASES = 5_000

#: Below this spread the pool may have missed what spread there is.
LITTLE_SPREAD = 0.1

#: Chances held in memory at once.
_BLOCK = 500_000


@dataclass(frozen=True, slots=True, eq=False)
class Predictive:
    """The spread of the log-odds over new units.

    Parameters
    ----------
    centre, scale : float
        Middle and width, log-odds.
    log_density : callable
        Logarithm, up to a constant, of the density of ``(log-odds - centre) / scale``; it takes
        and returns an array.
    """

    centre: float
    scale: float
    log_density: Callable[[Floats], Floats]

    def nodes(self, cases: int) -> tuple[Floats, Floats]:
        """Return log-odds and weights fine enough for units of this many cases.

        Parameters
        ----------
        cases : int
            Number of cases, from 1 to ``MOST_CASES``.

        Returns
        -------
        log_odds, weights : ndarray
            Shape ``(nodes,)``; the weights sum to 1. Doubling the nodes moves no chance of a
            count among ``cases`` by more than 1e-8.

        Raises
        ------
        ValueError
            If the number of cases is out of range.
        ArithmeticError
            If the chances do not settle.

        Notes
        -----
        As in :func:`evsyn.audit.nodes.settled`.
        """
        return self._settled(cases)[:2]

    def pmf(self, cases: int) -> Floats:
        """Return the chance of 0, 1, ..., ``cases`` events; shape ``(cases + 1,)``.

        Raises as :meth:`nodes`.
        """
        return self._settled(cases)[2]

    def share_below(self, log_odds: float) -> float:
        """Return the share of new units whose own log-odds lies below a value."""
        deviates, weights = nodes(self.log_density, self.scale, FINE)
        places = self.centre + self.scale * deviates
        return float(np.interp(log_odds, places, halfway(weights)))

    def quantile(self, share: float) -> float:
        """Return the log-odds below which a share of new units lies."""
        deviates, weights = nodes(self.log_density, self.scale, FINE)
        return self.centre + self.scale * float(np.interp(share, halfway(weights), deviates))

    def _settled(self, cases: int) -> tuple[Floats, Floats, Floats]:
        if not 1 <= cases <= MOST_CASES:
            raise ValueError(f"cases must lie between 1 and {MOST_CASES:,}; got {cases!r}")
        deviates, weights, chances = settled(
            self.log_density,
            self.scale,
            lambda deviates, weights: mixed(cases, self.centre + self.scale * deviates, weights),
        )
        return self.centre + self.scale * deviates, weights, chances


def mixed(cases: int, log_odds: Floats, weights: Floats) -> Floats:
    """Average binomial chances over rates; returns those of 0, 1, ..., ``cases`` events.

    Parameters
    ----------
    cases : int
        Number of cases, at least 1.
    log_odds, weights : ndarray
        Rates as log-odds, and the weight of each; shape ``(nodes,)``.
    """
    # A block at a time, so that memory stays small.
    blocks = -(-log_odds.size * (cases + 1) // _BLOCK)
    mixed = np.zeros(cases + 1)
    for node, weight in zip(
        np.array_split(log_odds, blocks), np.array_split(weights, blocks), strict=True
    ):
        mixed += weight @ _binomial(cases, node)
    return mixed


def _binomial(cases: int, log_odds: Floats) -> Floats:
    """Return chances of each count, shape ``(nodes, cases + 1)``."""
    counts = np.arange(cases + 1, dtype=np.float64)
    ways = (
        special.gammaln(cases + 1)
        - special.gammaln(counts + 1)
        - special.gammaln(cases - counts + 1)
    )
    hit = special.log_expit(log_odds)[:, np.newaxis]
    miss = special.log_expit(-log_odds)[:, np.newaxis]
    return np.asarray(np.exp(ways + counts * hit + (cases - counts) * miss), dtype=np.float64)


def student(centre: Centre, k: int) -> Predictive:
    """Return new units spread as ``mu + sqrt(tau^2 + se^2) T``, T having k - 1 degrees of freedom.

    Parameters
    ----------
    centre : Centre
        Centre, standard error and spread between studies, log-odds.
    k : int
        Number of studies.

    Raises
    ------
    ValueError
        If there are fewer than 3 studies.

    References
    ----------
    Higgins JPT, Thompson SG, Spiegelhalter DJ. J R Stat Soc A 2009;172:137-159, with k - 1 for
    their k - 2; Ohlssen DI, Sharples LD, Spiegelhalter DJ. J R Stat Soc A 2007;170:865-890 (the
    spread between units as the yardstick for one of them).
    """
    if k < 3:
        raise ValueError(f"a new unit is predicted from 3 studies or more; got {k}")
    width = float(np.hypot(centre.tau, centre.se))
    return Predictive(centre.mu, width, student_log_density(k - 1))


def beta_binomial(mean: float, rho: float) -> Predictive:
    """Return new units whose rates follow a beta distribution.

    Parameters
    ----------
    mean : float
        Mean rate, strictly between 0 and 1.
    rho : float
        Intraclass correlation, above 0 and below 1.

    Raises
    ------
    ValueError
        If either lies outside.
    """
    alpha, beta = beta_shapes(mean, rho)
    centre = float(special.logit(mean))
    width = beta_width(alpha, beta)

    def log_density(deviate: Floats) -> Floats:
        log_odds = centre + width * deviate
        hit, miss = special.log_expit(log_odds), special.log_expit(-log_odds)
        return np.asarray(alpha * hit + beta * miss, dtype=np.float64)

    return Predictive(centre, width, log_density)


def beta_shapes(mean: float, rho: float) -> tuple[float, float]:
    """Return both shapes of the beta distribution of rates; arguments and errors as above."""
    if not (0 < mean < 1 and 0 < rho < 1):
        raise ValueError(f"mean and rho must lie between 0 and 1; got {mean!r} and {rho!r}")
    return mean * (1 - rho) / rho, (1 - mean) * (1 - rho) / rho


def beta_width(alpha: float, beta: float) -> float:
    """Return the standard deviation of the log-odds of a beta-distributed rate."""
    return float(np.sqrt(special.polygamma(1, alpha) + special.polygamma(1, beta)))


def spread_used(reading: Reading) -> Centre | None:
    """Return the centre that prediction uses: the larger plausible spread where little was seen.

    ``None`` where that cannot be had, since the likelihood did not settle there.
    """
    is_wide = reading.centre.tau >= LITTLE_SPREAD or reading.rho is not None
    used = reading.centre if is_wide else reading.at_tau_hi
    return used if used is not None and is_finite(used) else None


def is_finite(centre: Centre) -> bool:
    """Whether all three numbers of a centre exist."""
    return bool(np.all(np.isfinite([centre.mu, centre.se, centre.tau])))


def knows_spread(reading: Reading) -> bool:
    """Whether the row saw spread, or holds the larger plausible one.

    A beta-binomial row holds no larger one; the variance of its log-odds is about
    ``rho / (mean (1 - mean))``.
    """
    if reading.rho is None:
        return spread_used(reading) is not None
    return reading.rho >= LITTLE_SPREAD**2 * reading.mean * (1 - reading.mean)


def predictive(reading: Reading, k: int) -> Predictive:
    """Return the spread of ordinary new units, from the row that is read.

    Where the spread between studies is below 0.1, the larger plausible spread stands in for it:
    a pool that saw none would otherwise call ordinary units unusual. A beta-binomial row predicts
    by its own beta distribution.

    Parameters
    ----------
    reading : Reading
        The row to read.
    k : int
        Number of studies.

    Raises
    ------
    ValueError
        If there are fewer than 3 studies, or the larger spread is needed and missing.
    """
    if reading.rho:
        return beta_binomial(reading.mean, reading.rho)
    used = spread_used(reading)
    if used is None:
        raise ValueError("a reading with next to no spread must hold the larger plausible one")
    return student(used, k)


def same_rate(reading: Reading, k: int) -> Predictive:
    """Return what new units would show if every unit shared the typical rate.

    Parameters and errors as in :func:`predictive`; only the doubt about the centre is left.
    """
    centre = reading.centre
    # A beta-binomial row keeps the standard error of its centre with the row alone.
    se = centre.se if reading.rho is None else reading.pooled.se_on_scale
    return student(Centre(centre.mu, se, 0.0), k)
