"""Pool single proportions by the exact model."""

from dataclasses import replace

import numpy as np
from numpy.typing import ArrayLike
from scipy.special import expit

from evsyn.effects.arguments import as_level
from evsyn.effects.proportions import EffectSizes, logit_effects
from evsyn.pooling.binomial_normal.counts import Counts, read_counts
from evsyn.pooling.binomial_normal.one_sample import (
    BinomialNormalFit,
    fit_binomial_normal,
    information_shares,
    t_limits,
)
from evsyn.pooling.binomial_normal.profile import tau_limits
from evsyn.pooling.heterogeneity import i2_from_q, i2_from_tau2, q_p_value, typical_variance
from evsyn.pooling.prediction import prediction_interval
from evsyn.pooling.records import counted_record
from evsyn.pooling.result import Pooled, Status
from evsyn.pooling.studies import study_rows, weighted_mean

MODEL, BETWEEN, INTERVAL = "binomial_normal", "maximum_likelihood", "t_k_minus_1"


def pool_binomial_normal(events: ArrayLike, total: ArrayLike, *, level: float = 0.95) -> Pooled:
    """Pool single proportions by the binomial-normal model, on the counts themselves.

    Parameters
    ----------
    events, total : array_like of int, shape (k,)
        Patients with the event, and patients, of each study.
    level : float
        Two-sided level of every interval.

    Returns
    -------
    Pooled
        ``estimate`` is ``expit(mu)``, the median setting. Limits are ``expit(mu -+ t(k-1) se)``,
        prediction ``expit(mu -+ t(k-1) sqrt(tau2 + se^2))``; the limits of ``tau2`` are those of
        its profile likelihood. ``q``, ``p`` and ``i2_from_q`` are those of Cochran's Q on study
        log-odds (half an event added in studies at 0% or 100%); ``i2`` sets ``tau2`` against the
        typical variance of the same log-odds. ``weights`` are shares of the information about mu.
        One study, and studies all at 0% or all at 100%, keep their total with its exact
        interval. A fit that did not converge gives only ``q`` and what follows from it.

    Raises
    ------
    ValueError
        If the counts are impossible or the level is not between 0 and 1.

    References
    ----------
    Stijnen T, Hamza TH, Ozdemir P. Stat Med 2010;29:3046-3067; Higgins JPT, Thompson SG,
    Spiegelhalter DJ. J R Stat Soc A 2009;172:137-159 (prediction).
    """
    level = as_level(level)
    counts = read_counts(events, total)
    effects = logit_effects(counts.events, counts.total)
    everyone = np.ones(counts.k, dtype=np.bool_)
    counted = counted_record(
        counts.events, counts.total, effects, everyone, between=BETWEEN, level=level
    )
    if counted is not None:
        return replace(counted, model=MODEL)
    bare = Pooled(MODEL, "logit", BETWEEN, INTERVAL, level, counts.k, Status.NO_STUDY)
    if not counts.k:
        return bare
    fit = fit_binomial_normal(counts.events, counts.total)
    return _with_fit(_with_q(bare, effects, fit.tau), counts, fit)


def _with_q(bare: Pooled, effects: EffectSizes, tau: float) -> Pooled:
    """Add Cochran's Q on study log-odds and the shares of variance."""
    mask = np.ones((1, effects.estimate.size), dtype=np.bool_)
    studies = study_rows(effects.estimate, effects.variance, mask)
    common = weighted_mean(studies, studies.no_spread)
    df = studies.k - 1
    return replace(
        bare,
        q=float(common.q[0]),
        df=float(df[0]),
        p=float(q_p_value(common.q, df)[0]),
        i2=float(i2_from_tau2(np.array([tau**2]), typical_variance(common, studies.k))[0]),
        i2_from_q=float(i2_from_q(common.q, df)[0]),
        notes=("half_added_in_q",) * bool(effects.corrected.any()),
    )


def _with_fit(bare: Pooled, counts: Counts, fit: BinomialNormalFit) -> Pooled:
    """Add what the fit gives, or say that there is none."""
    if not fit.converged:
        return replace(bare, status=Status.NOT_CONVERGED, converged=False, i2=np.nan)
    low, high = t_limits(fit.mu, fit.se, fit.k - 1, bare.level)
    new_low, new_high, new_df = prediction_interval(
        fit.mu, fit.se, fit.tau**2, fit.k, level=bare.level
    )
    tau_low, tau_high = tau_limits(counts, fit, level=bare.level)
    return replace(
        bare,
        status=Status.POOLED,
        estimate=float(expit(fit.mu)),
        low=float(expit(low)),
        high=float(expit(high)),
        estimate_on_scale=fit.mu,
        se_on_scale=fit.se,
        tau2=fit.tau**2,
        tau2_low=tau_low**2,
        tau2_high=tau_high**2,
        prediction_low=float(expit(new_low)),
        prediction_high=float(expit(new_high)),
        prediction_df=float(new_df),
        weights=information_shares(counts, fit),
        notes=bare.notes + ("tau2_at_zero",) * (fit.tau == 0),
    )
