"""The binomial-normal model of one set of studies: centre, standard error, spread."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike
from scipy.special import expit, stdtrit

from evsyn.effects.arguments import Floats
from evsyn.pooling.binomial_normal.counts import Counts, read_counts
from evsyn.pooling.binomial_normal.fit import ModelFit, fit_at_tau, fit_model
from evsyn.pooling.binomial_normal.likelihood import CountLikelihood, study_terms


@dataclass(frozen=True, slots=True)
class BinomialNormalFit:
    """Centre and spread of the true log-odds of k studies.

    Parameters
    ----------
    mu : float
        Centre, log-odds; ``expit(mu)`` is the median setting.
    se : float
        Standard error of ``mu``: from the inverse observed information of ``mu`` and ``tau`` if
        ``tau`` was estimated above 0, of ``mu`` alone if it is 0 or was held.
    tau : float
        Between-study standard deviation, log-odds.
    loglik : float
        Log-likelihood with the binomial coefficients.
    k : int
        Number of studies.
    converged : bool
        Whether a maximum was reached and more nodes changed nothing.
    nodes : int
        Nodes of the integration.
    """

    mu: float
    se: float
    tau: float
    loglik: float
    k: int
    converged: bool
    nodes: int

    @property
    def mean(self) -> float:
        """Mean over settings of the true proportion."""
        return population_mean(self.mu, self.tau)


def fit_binomial_normal(events: ArrayLike, total: ArrayLike) -> BinomialNormalFit:
    """Fit the binomial-normal model by maximum likelihood.

    Parameters
    ----------
    events, total : array_like of int, shape (k,)
        Patients with the event, and patients, of each study; at least two studies.

    Returns
    -------
    BinomialNormalFit
        Maximum over mu and tau of the sum of
        ``log integral Bin(events; total, expit(mu + tau z)) phi(z) dz``, tau = 0 included.

    Raises
    ------
    ValueError
        If the counts are impossible, there are fewer than two studies, or no study has an event,
        or every patient of every study has one: then there is nothing to fit.

    References
    ----------
    Stijnen T, Hamza TH, Ozdemir P. Stat Med 2010;29:3046-3067.
    """
    return fit_one_sample(_fittable(events, total))


def fit_one_sample(counts: CountLikelihood) -> BinomialNormalFit:
    """Fit one centre and one spread to counts already checked; see :func:`fit_binomial_normal`."""
    return _one_sample(counts, fit_model(counts, _intercept(counts)))


def fit_binomial_normal_at(events: ArrayLike, total: ArrayLike, tau: float) -> BinomialNormalFit:
    """Fit the centre with the between-study standard deviation held.

    Parameters
    ----------
    events, total : array_like of int, shape (k,)
        As in :func:`fit_binomial_normal`; one study is enough.
    tau : float
        The value to hold, log-odds, from 0 to 40.

    Returns
    -------
    BinomialNormalFit
        ``se`` from the information of ``mu`` alone.

    Raises
    ------
    ValueError
        As :func:`fit_binomial_normal`, or if tau is outside its range.
    """
    if not 0 <= tau <= 40:
        raise ValueError(f"tau must lie between 0 and 40 log-odds; got {tau!r}")
    counts = _fittable(events, total, least=1)
    return _one_sample(counts, fit_at_tau(counts, _intercept(counts), float(tau)))


def population_mean(mu: float, tau: float) -> float:
    """Return the mean over settings, ``integral expit(mu + tau z) phi(z) dz``.

    Parameters
    ----------
    mu, tau : float
        Centre and between-study standard deviation, log-odds.
    """
    # Even steps are as good as exact here once they are short against 1 / tau.
    step = min(0.1, 0.5 / max(tau, 1e-300))
    z = np.arange(-9.0, 9.0 + step, step)
    weight = np.exp(-(z**2) / 2)
    return float((weight * expit(mu + tau * z)).sum() / weight.sum())


def t_limits(mu: float, se: float, df: float, level: float) -> tuple[float, float]:
    """Return ``mu -+ t(df) se`` on the scale of ``mu``."""
    half = float(stdtrit(df, (1 + level) / 2)) * se
    return mu - half, mu + half


def information_shares(counts: CountLikelihood, fit: BinomialNormalFit) -> tuple[float, ...]:
    """Return each study's share of the information about mu at the fitted spread; sums to 1.

    No share is negative, because every study's likelihood is log-concave in mu.
    """
    eta = np.full(counts.k, fit.mu)
    information: Floats = -study_terms(counts, eta, fit.tau, fit.nodes).by_eta_eta
    information = np.maximum(information, 0)
    return tuple((information / information.sum()).tolist())


def _fittable(events: ArrayLike, total: ArrayLike, *, least: int = 2) -> Counts:
    counts = read_counts(events, total)
    if counts.k < least:
        raise ValueError(f"at least {least} studies are needed; got {counts.k}")
    if counts.one_sided:
        raise ValueError("all events are 0, or all are full: the model cannot be fitted")
    return counts


def _intercept(counts: CountLikelihood) -> Floats:
    return np.ones((counts.k, 1))


def _one_sample(counts: CountLikelihood, fit: ModelFit) -> BinomialNormalFit:
    return BinomialNormalFit(
        mu=float(fit.beta[0]) + 0.0,  # no negative zero
        se=math.sqrt(fit.covariance[0, 0]),
        tau=fit.tau,
        loglik=fit.loglik,
        k=counts.k,
        converged=fit.converged,
        nodes=fit.nodes,
    )
