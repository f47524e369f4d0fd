"""Pool odds ratios of two arms by the exact conditional model."""

from dataclasses import replace

import numpy as np

from evsyn.effects.scales import LOG
from evsyn.effects.two_arms import TwoArms, log_odds_ratios
from evsyn.pooling.between_study import NO_SPREAD
from evsyn.pooling.binomial_normal.one_sample import fit_one_sample
from evsyn.pooling.binomial_normal.record import with_fit
from evsyn.pooling.functions import effect_records
from evsyn.pooling.grid import overall
from evsyn.pooling.heterogeneity import i2_from_tau2, typical_variance
from evsyn.pooling.hypergeometric_normal.tables import conditional_tables
from evsyn.pooling.result import Pooled, Status
from evsyn.pooling.studies import study_rows, weighted_mean

MODEL, BETWEEN, INTERVAL = "hypergeometric_normal", "maximum_likelihood", "t_k_minus_1"


def pool_hypergeometric_normal(arms: TwoArms, *, level: float) -> Pooled:
    """Pool odds ratios on the counts themselves, all margins held.

    Each study has its own baseline risk, which conditioning on the margins removes, and its own
    log odds ratio, normal between studies; maximum likelihood over centre and spread. Conditional,
    not with one free intercept a study, because those would bias the ratio where studies are small.

    Parameters
    ----------
    arms : TwoArms
        Cells of at least two studies that inform a ratio.
    level : float
        Two-sided level of every interval, already checked.

    Returns
    -------
    Pooled
        ``estimate`` is ``exp(mu)``, limits ``exp(mu -+ t(k-1) se)``, prediction
        ``exp(mu -+ t(k-1) sqrt(tau2 + se^2))``; limits of ``tau2`` from its profile likelihood.
        ``q``, ``p``, ``i2`` and ``i2_from_q`` are of study log odds ratios (half added to the
        cells of studies with an empty cell). ``weights`` are shares of the information about mu.
        ``not_estimable`` where arm 1 has the least events its margins allow in every study, or the
        most in every study: the ratio is then 0 or infinite.

    Raises
    ------
    ValueError
        If a study has too many possible counts.

    References
    ----------
    Van Houwelingen HC, Zwinderman KH, Stijnen T. Stat Med 1993;12:2273-2284; Stijnen T, Hamza TH,
    Ozdemir P. Stat Med 2010;29:3046-3067.
    """
    tables = conditional_tables(arms)
    bare = _with_q(arms, level)
    if tables.one_sided:
        return replace(bare, status=Status.NOT_ESTIMABLE)
    fit = fit_one_sample(tables)
    if not fit.converged:
        return replace(bare, status=Status.NOT_CONVERGED, converged=False)
    return with_fit(_with_i2(bare, arms, fit.tau), tables, fit, LOG)


def _with_q(arms: TwoArms, level: float) -> Pooled:
    """Return a record with Cochran's Q of study log odds ratios and nothing else."""
    effects = log_odds_ratios(arms)
    (common,) = effect_records(
        effects, overall(effects.estimate.size), NO_SPREAD, "ordinary", level
    )
    return Pooled(
        MODEL,
        LOG.name,
        BETWEEN,
        INTERVAL,
        level,
        common.k,
        Status.POOLED,
        q=common.q,
        df=common.df,
        p=common.p,
        i2_from_q=common.i2_from_q,
        notes=("half_added_in_q",) * bool(common.corrected),
        corrected=common.corrected,
    )


def _with_i2(bare: Pooled, arms: TwoArms, tau: float) -> Pooled:
    effects = log_odds_ratios(arms)
    rows = study_rows(effects.estimate, effects.variance, np.ones((1, bare.k), dtype=np.bool_))
    typical = typical_variance(weighted_mean(rows, rows.no_spread), rows.k)
    return replace(bare, i2=float(i2_from_tau2(np.array([tau**2]), typical)[0]))
