"""Profile likelihood of the binomial-normal model: intervals of mu and of tau."""

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike
from scipy.special import chdtri

from evsyn.effects.arguments import as_level
from evsyn.pooling.binomial_normal.counts import read_counts
from evsyn.pooling.binomial_normal.fit import fit_at_tau, fit_model
from evsyn.pooling.binomial_normal.likelihood import CountLikelihood
from evsyn.pooling.binomial_normal.one_sample import BinomialNormalFit, fit_binomial_normal
from evsyn.pooling.root import bracketed_root

_TOLERANCE = 1e-8
_TAU_LIMIT = 39.0
_MU_LIMIT = 200.0


@dataclass(frozen=True, slots=True)
class BinomialNormalProfile:
    """Profile-likelihood limits of one fit.

    Parameters
    ----------
    mu_low, mu_high : float
        Limits of the centre, log-odds; infinite where the likelihood never falls far enough.
    tau_low, tau_high : float
        Limits of the between-study standard deviation, log-odds; ``tau_low`` is 0 where 0 is
        inside, ``tau_high`` infinite where no spread up to 39 is excluded.
    tau_hi : float
        The larger tau whose profile log-likelihood lies 0.5 below its maximum.
    level : float
        Two-sided level of the limits.
    """

    mu_low: float
    mu_high: float
    tau_low: float
    tau_high: float
    tau_hi: float
    level: float


def profile_binomial_normal(
    events: ArrayLike, total: ArrayLike, fit: BinomialNormalFit, *, level: float = 0.95
) -> BinomialNormalProfile:
    """Return every profile-likelihood limit of a converged fit.

    Parameters
    ----------
    events, total : array_like of int, shape (k,)
        The counts the fit was made from.
    fit : BinomialNormalFit
        Their fit.
    level : float
        Two-sided level; the cut is the chi-squared quantile on 1 degree of freedom, 3.84 at 0.95.

    Returns
    -------
    BinomialNormalProfile

    Raises
    ------
    ValueError
        If the fit did not converge or is of another number of studies, or the level is not
        between 0 and 1.

    References
    ----------
    Hardy RJ, Thompson SG. Stat Med 1996;15:619-629 (profile likelihood in random effects).
    """
    counts = read_counts(events, total)
    _refuse_other(counts, fit)
    tau_low, tau_high = tau_limits(counts, fit, level=level)
    mu_low, mu_high = mu_limits(counts, fit, level=level)
    tau_hi = _largest(counts, fit, 0.5)
    return BinomialNormalProfile(mu_low, mu_high, tau_low, tau_high, tau_hi, level)


def largest_tau(events: ArrayLike, total: ArrayLike, *, drop: float = 0.5) -> float:
    """Return the largest spread that the likelihood still supports.

    Parameters
    ----------
    events, total : array_like of int, shape (k,)
        Patients with the event, and patients, of each study; at least two studies.
    drop : float
        How far below its maximum the profile log-likelihood has fallen there.

    Returns
    -------
    float
        Between-study standard deviation, log-odds; infinite where no spread up to 39 is excluded.

    Raises
    ------
    ValueError
        If the model cannot be fitted to the counts or does not converge, or drop is not above 0.
    """
    if not 0 < drop < math.inf:
        raise ValueError(f"drop must be above 0, and finite; got {drop!r}")
    fit = fit_binomial_normal(events, total)
    counts = read_counts(events, total)
    _refuse_other(counts, fit)
    return _largest(counts, fit, drop)


def tau_limits(
    counts: CountLikelihood, fit: BinomialNormalFit, *, level: float
) -> tuple[float, float]:
    """Return the profile-likelihood limits of tau, 0 where it is inside."""
    cut = _cut(level)
    drop, step = _tau_drop(counts, fit), _tau_step(fit)
    high = _outward(drop, fit.tau, step, cut, _TAU_LIMIT)
    if fit.tau == 0 or drop(0.0) <= cut:
        return 0.0, high
    return bracketed_root(_signed(drop, cut), 0.0, fit.tau, tolerance=_TOLERANCE), high


def mu_limits(
    counts: CountLikelihood, fit: BinomialNormalFit, *, level: float
) -> tuple[float, float]:
    """Return the profile-likelihood limits of mu, tau maximised anew at each mu."""
    cut = _cut(level)
    nothing = np.empty((counts.k, 0))

    def drop(mu: float) -> float:
        at = fit_model(counts, nothing, mu, start_tau=math.hypot(fit.tau, mu - fit.mu))
        return 2 * (fit.loglik - at.loglik)

    step = 2 * fit.se
    low = _outward(drop, fit.mu, -step, cut, fit.mu - _MU_LIMIT)
    return low, _outward(drop, fit.mu, step, cut, fit.mu + _MU_LIMIT)


def _refuse_other(counts: CountLikelihood, fit: BinomialNormalFit) -> None:
    if not fit.converged:
        raise ValueError("the fit did not converge, so it has no profile")
    if fit.k != counts.k:
        raise ValueError(f"the fit is of {fit.k} studies; got {counts.k}")


def _cut(level: float) -> float:
    return float(chdtri(1, 1 - as_level(level)))


def _largest(counts: CountLikelihood, fit: BinomialNormalFit, drop: float) -> float:
    return _outward(_tau_drop(counts, fit), fit.tau, _tau_step(fit), 2 * drop, _TAU_LIMIT)


def _tau_drop(counts: CountLikelihood, fit: BinomialNormalFit) -> Callable[[float], float]:
    """Return twice the fall of the profile log-likelihood as a function of tau."""
    design, start = np.ones((counts.k, 1)), np.array([fit.mu])

    def drop(tau: float) -> float:
        nonlocal start
        held = fit_at_tau(counts, design, tau, start=start)
        # The next tau is near this one, and so is its centre.
        start = held.beta if held.converged else start
        return 2 * (fit.loglik - held.loglik)

    return drop


def _tau_step(fit: BinomialNormalFit) -> float:
    return max(0.5 * fit.tau, 0.25)


def _signed(drop: Callable[[float], float], cut: float) -> Callable[[float], float]:
    """Square roots, because the drop is nearly a parabola: its root is nearly a line."""
    return lambda value: math.sqrt(max(drop(value), 0.0)) - math.sqrt(cut)


def _outward(
    drop: Callable[[float], float], centre: float, step: float, cut: float, limit: float
) -> float:
    """Walk out from the maximum until the drop passes the cut, and find where."""
    inside, outside = centre, centre + step
    while drop(outside) < cut:
        if abs(outside - centre) >= abs(limit - centre):
            return math.copysign(math.inf, step)
        inside, step = outside, 1.5 * step
        outside = inside + math.copysign(min(abs(step), abs(limit - inside)), step)
    return bracketed_root(_signed(drop, cut), inside, outside, tolerance=_TOLERANCE)
