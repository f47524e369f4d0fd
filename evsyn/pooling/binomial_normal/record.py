"""From a fit of an exact model to a record on the original scale."""

import math
from dataclasses import replace

import numpy as np

from evsyn.effects.scales import Scale
from evsyn.pooling.binomial_normal.likelihood import CountLikelihood
from evsyn.pooling.binomial_normal.one_sample import (
    BinomialNormalFit,
    information_shares,
    t_limits,
)
from evsyn.pooling.binomial_normal.profile import tau_limits
from evsyn.pooling.prediction import prediction_interval
from evsyn.pooling.result import Pooled, Status


def with_fit(
    bare: Pooled,
    counts: CountLikelihood,
    fit: BinomialNormalFit,
    scale: Scale,
    *,
    limits_of_tau: bool = True,
) -> Pooled:
    """Add centre, spread, limits, prediction and weights of a fit that converged.

    Parameters
    ----------
    bare : Pooled
        The record so far: level, Cochran's Q and the shares of variance.
    counts : CountLikelihood
        What the model was fitted to.
    fit : BinomialNormalFit
        Centre and spread on the analysis scale.
    scale : Scale
        The analysis scale, and the way back from it.
    limits_of_tau : bool
        Whether the spread gets its limits, which take most of the time; else they are ``nan``.

    Returns
    -------
    Pooled
    """

    def back(value: float) -> float:
        return float(scale.back(np.array(value)))

    low, high = t_limits(fit.mu, fit.se, fit.k - 1, bare.level)
    new_low, new_high, new_df = prediction_interval(
        fit.mu, fit.se, fit.tau**2, fit.k, level=bare.level
    )
    tau_low = tau_high = math.nan
    if limits_of_tau:
        tau_low, tau_high = tau_limits(counts, fit, level=bare.level)
    return replace(
        bare,
        status=Status.POOLED,
        estimate=back(fit.mu),
        low=back(low),
        high=back(high),
        estimate_on_scale=fit.mu,
        se_on_scale=fit.se,
        tau2=fit.tau**2,
        tau2_low=tau_low**2,
        tau2_high=tau_high**2,
        prediction_low=back(float(new_low)),
        prediction_high=back(float(new_high)),
        prediction_df=float(new_df),
        weights=information_shares(counts, fit),
        notes=bare.notes + ("tau2_at_zero",) * (fit.tau == 0),
    )
