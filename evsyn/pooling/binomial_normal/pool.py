"""Pool single proportions by the exact model."""

from dataclasses import replace

import numpy as np
from numpy.typing import ArrayLike

from evsyn.effects.arguments import as_level
from evsyn.effects.proportions import EffectSizes, logit_effects
from evsyn.effects.scales import LOGIT
from evsyn.pooling.binomial_normal.counts import read_counts
from evsyn.pooling.binomial_normal.one_sample import fit_binomial_normal
from evsyn.pooling.binomial_normal.record import with_fit
from evsyn.pooling.heterogeneity import i2_from_q, i2_from_tau2, q_p_value, typical_variance
from evsyn.pooling.records import counted_record
from evsyn.pooling.result import Pooled, Status
from evsyn.pooling.studies import study_rows, weighted_mean

MODEL, BETWEEN, INTERVAL = "binomial_normal", "maximum_likelihood", "t_k_minus_1"


def pool_binomial_normal(
    events: ArrayLike, total: ArrayLike, *, level: float = 0.95, limits_of_tau: bool = True
) -> Pooled:
    """Pool single proportions by the binomial-normal model, on the counts themselves.

    Parameters
    ----------
    events, total : array_like of int, shape (k,)
        Patients with the event, and patients, of each study.
    level : float
        Two-sided level of every interval.
    limits_of_tau : bool
        Whether ``tau2`` gets its limits, which take most of the time; else they are ``nan``.

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
    bare = Pooled(MODEL, LOGIT.name, BETWEEN, INTERVAL, level, counts.k, Status.NO_STUDY)
    if not counts.k:
        return bare
    fit = fit_binomial_normal(counts.events, counts.total)
    with_q = _with_q(bare, effects, fit.tau)
    if not fit.converged:
        return replace(with_q, status=Status.NOT_CONVERGED, converged=False, i2=np.nan)
    return with_fit(with_q, counts, fit, LOGIT, limits_of_tau=limits_of_tau)


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
