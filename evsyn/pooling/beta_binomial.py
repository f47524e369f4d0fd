"""Pool single proportions by the beta-binomial model: the mean proportion, and rho."""

import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike
from scipy.special import betaincinv, expit, logit

from evsyn.effects.arguments import Floats, as_level
from evsyn.effects.proportions import logit_effects
from evsyn.pooling.beta_binomial_likelihood import Reaches, log_likelihood, reaches
from evsyn.pooling.binomial_normal.counts import Counts, read_counts
from evsyn.pooling.binomial_normal.one_sample import t_limits
from evsyn.pooling.newton import Summit, climb, is_higher
from evsyn.pooling.records import counted_record
from evsyn.pooling.result import Pooled, Status

MODEL, SCALE, BETWEEN, INTERVAL = "beta_binomial", "mean", "maximum_likelihood", "t_k_minus_1"

_PHI_FLOOR, _PHI_CEILING = 1e-12, 1e4
_TOLERANCE = 1e-7
_PHI_STARTS = (1e-4, 1e-3, 1e-2, 0.1, 1.0, 10.0)


@dataclass(frozen=True, slots=True)
class BetaBinomialFit:
    """Mean and spread of the true proportions of k studies, taken as beta distributed.

    Parameters
    ----------
    mean : float
        Mean proportion.
    rho : float
        Intraclass correlation, from 0; the variance of true proportions is
        ``rho mean (1 - mean)``.
    se_logit : float
        Standard error of the logit of the mean: inverse observed information of mean and rho if
        rho was estimated above 0, of the mean alone if it is 0.
    loglik : float
        Log-likelihood with the binomial coefficients.
    k : int
        Number of studies.
    converged : bool
        Whether a maximum was reached.
    """

    mean: float
    rho: float
    se_logit: float
    loglik: float
    k: int
    converged: bool


def fit_beta_binomial(events: ArrayLike, total: ArrayLike) -> BetaBinomialFit:
    """Fit the beta-binomial model by maximum likelihood.

    Parameters
    ----------
    events, total : array_like of int, shape (k,)
        Patients with the event, and patients, of each study; at least two studies.

    Returns
    -------
    BetaBinomialFit
        Highest of the climbs from six starts (the likelihood may have two hills) and of rho = 0,
        which is the crude total.

    Raises
    ------
    ValueError
        If the counts are impossible, a total is above ten million, there are fewer than two
        studies, or all events are 0 or all are full.

    References
    ----------
    Griffiths DA. Biometrics 1973;29:637-648.
    """
    counts = read_counts(events, total)
    if counts.k < 2:
        raise ValueError(f"at least 2 studies are needed; got {counts.k}")
    if counts.one_sided:
        raise ValueError("all events are 0, or all are full: the model cannot be fitted")
    summed = reaches(counts)
    crude = float(logit(counts.events.sum() / counts.total.sum()))
    value, _, hessian = log_likelihood(summed, crude, 0.0)
    flat = Summit(np.array([crude, -math.inf]), value, hessian[:1, :1], converged=True)
    curved = [_climb_from(summed, crude, phi) for phi in _PHI_STARTS]
    best = max(curved, key=lambda summit: summit.value)
    return _as_fit(best if is_higher(best.value, value) else flat, counts)


def pool_beta_binomial(events: ArrayLike, total: ArrayLike, *, level: float = 0.95) -> Pooled:
    """Pool single proportions by the beta-binomial model.

    Parameters
    ----------
    events, total : array_like of int, shape (k,)
        Patients with the event, and patients, of each study.
    level : float
        Two-sided level of every interval.

    Returns
    -------
    Pooled
        ``estimate`` is the mean over settings (not the median, as in the binomial-normal model).
        ``estimate_on_scale`` and ``se_on_scale`` are of the logit of the mean, limits
        ``expit(logit mean -+ t(k-1) se)``. Prediction limits are the quantiles of the fitted beta
        distribution, which leave out the uncertainty of the mean (note ``prediction_plug_in``);
        there are none where rho is 0. ``tau2``, ``q`` and ``i2`` do not exist in this model. One
        study, and studies all at 0% or all at 100%, keep their total with its exact interval.

    Raises
    ------
    ValueError
        If the counts are impossible, a total is above ten million, or the level is not between 0
        and 1.

    References
    ----------
    Griffiths DA. Biometrics 1973;29:637-648; Kuss O. Stat Med 2015;34:1097-1116 (use in
    meta-analysis).
    """
    level = as_level(level)
    counts = read_counts(events, total)
    x, n = counts.events, counts.total
    everyone = np.ones(counts.k, dtype=np.bool_)
    counted = counted_record(x, n, logit_effects(x, n), everyone, between=BETWEEN, level=level)
    if counted is not None:
        return replace(counted, model=MODEL, scale=SCALE)
    bare = Pooled(MODEL, SCALE, BETWEEN, INTERVAL, level, counts.k, Status.NO_STUDY)
    return _with_fit(bare, fit_beta_binomial(x, n)) if counts.k else bare


def _with_fit(bare: Pooled, fit: BetaBinomialFit) -> Pooled:
    if not fit.converged:
        return replace(bare, status=Status.NOT_CONVERGED, converged=False)
    centre = float(logit(fit.mean))
    low, high = t_limits(centre, fit.se_logit, fit.k - 1, bare.level)
    new_low, new_high = _beta_quantiles(fit, bare.level)
    return replace(
        bare,
        status=Status.POOLED,
        estimate=fit.mean,
        low=float(expit(low)),
        high=float(expit(high)),
        estimate_on_scale=centre,
        se_on_scale=fit.se_logit,
        prediction_low=new_low,
        prediction_high=new_high,
        notes=("prediction_plug_in",) if fit.rho else ("rho_at_zero",),
    )


def _beta_quantiles(fit: BetaBinomialFit, level: float) -> tuple[float, float]:
    if fit.rho == 0:
        return math.nan, math.nan
    size, tail = (1 - fit.rho) / fit.rho, (1 - level) / 2
    a, b = fit.mean * size, (1 - fit.mean) * size
    return float(betaincinv(a, b, tail)), float(betaincinv(a, b, 1 - tail))


def _climb_from(counts: Reaches, logit_mean: float, phi: float) -> Summit:
    """Climb over (logit mean, log phi)."""

    def surface(point: Floats) -> tuple[float, Floats, Floats]:
        spread = math.exp(point[1])
        value, gradient, hessian = log_likelihood(counts, float(point[0]), spread)
        stretch = np.array([1.0, spread])
        hessian = hessian * np.outer(stretch, stretch)
        hessian[1, 1] += spread * gradient[1]
        return value, gradient * stretch, hessian

    low = np.array([-np.inf, math.log(_PHI_FLOOR)])
    high = np.array([np.inf, math.log(_PHI_CEILING)])
    start = np.array([logit_mean, math.log(phi)])
    return climb(surface, start, low=low, high=high, tolerance=_TOLERANCE)


def _as_fit(summit: Summit, counts: Counts) -> BetaBinomialFit:
    phi = math.exp(summit.point[1])
    variance = np.linalg.inv(-summit.hessian)[0, 0] if summit.converged else math.nan
    return BetaBinomialFit(
        mean=float(expit(summit.point[0])),
        rho=phi / (1 + phi),
        se_logit=math.sqrt(variance),
        loglik=summit.value,
        k=counts.k,
        converged=summit.converged,
    )
