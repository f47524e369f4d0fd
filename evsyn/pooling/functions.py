"""Pooling for notebooks and for every room to the right: plain arrays in, records out."""

import numpy as np
from numpy.typing import ArrayLike

from evsyn.effects.arguments import Floats, as_counts, as_estimates, known_word
from evsyn.effects.proportions import PROPORTION_EFFECTS, EffectSizes
from evsyn.effects.scales import IDENTITY
from evsyn.pooling.grid import AnalysisGrid, overall
from evsyn.pooling.options import checked_between
from evsyn.pooling.records import counted_record, pooled_record
from evsyn.pooling.result import Pooled
from evsyn.pooling.two_step import pool_two_step

#: Models for effects that are given, or that counts and measurements are turned into.
TWO_STEP_MODELS = ("random", "common")


def pool_proportions(
    events: ArrayLike,
    total: ArrayLike,
    *,
    scale: str = "logit",
    between: str = "dersimonian_laird",
    interval: str = "ordinary",
    level: float = 0.95,
) -> Pooled:
    """Pool single proportions by two-step random effects.

    Parameters
    ----------
    events, total : array_like of int
        Counts, one entry a study.
    scale : {"logit", "arcsine", "freeman_tukey", "freeman_tukey_mean", "raw"}
        Analysis scale. On ``logit`` half an event is added only in studies at 0% or 100%. The
        others are offered to match what is printed elsewhere, and the record says so (note
        ``scale_to_match_print``): the double arcsine of Freeman and Tukey, as a sum of two angles
        or as their mean, has no way back that holds for studies of unequal size and is brought
        back at the harmonic mean of sizes; ``raw`` has limits cut at 0 and 1.
    between : str
        Between-study estimator: ``dersimonian_laird``, ``restricted_ml``, ``paule_mandel``,
        ``ml``, ``hedges_olkin`` or ``sidik_jonkman``.
    interval : str
        Interval of the summary: ``ordinary``, ``ordinary_t``, ``hartung_knapp`` or
        ``hartung_knapp_floor``.
    level : float
        Two-sided level of every interval, as 0.95.

    Returns
    -------
    Pooled
        Estimate, limits and prediction as proportions; ``tau2`` and the fields ending in
        ``_on_scale`` on the analysis scale: log-odds, radians or proportions. One study keeps its
        own proportion with its Clopper-Pearson interval; so does the total where all studies are at
        0%, or all at 100%.

    Raises
    ------
    ValueError
        If the counts are impossible, or an option or the level is not known, or a study is at 0%
        or 100% on the raw scale.

    References
    ----------
    DerSimonian R, Laird N. Control Clin Trials 1986;7:177-188.
    """
    counts = as_counts(events, total)
    (record,) = pool_proportions_grid(
        *counts,
        overall(counts[0].size),
        scale=scale,
        between=between,
        interval=interval,
        level=level,
    )
    return record


def pool_estimates(
    estimate: ArrayLike,
    variance: ArrayLike,
    *,
    model: str = "random",
    between: str = "dersimonian_laird",
    interval: str = "ordinary",
    level: float = 0.95,
) -> Pooled:
    """Pool study estimates by inverse variance, on the scale they are given on.

    Parameters
    ----------
    estimate, variance : array_like
        One estimate and its sampling variance a study. Ratios go in as logarithms, and come out
        as logarithms.
    model : {"random", "common"}
        Random effects, or one common true value with weights ``1 / variance``: that has no spread
        between studies, no prediction, and the ordinary interval.
    between, interval, level
        As in :func:`pool_proportions`; the first two belong to ``random``.

    Returns
    -------
    Pooled
        All fields on the scale of ``estimate``. One study keeps its own estimate with the
        ordinary interval.

    Raises
    ------
    ValueError
        If a variance is not above 0, a value is not finite, or an option or the level is not
        known.

    References
    ----------
    DerSimonian R, Laird N. Control Clin Trials 1986;7:177-188.
    """
    effects = as_estimates(estimate, variance)
    (record,) = pool_estimates_grid(
        *effects,
        overall(effects[0].size),
        model=model,
        between=between,
        interval=interval,
        level=level,
    )
    return record


def pool_proportions_grid(
    events: ArrayLike,
    total: ArrayLike,
    grid: AnalysisGrid,
    *,
    scale: str = "logit",
    between: str = "dersimonian_laird",
    interval: str = "ordinary",
    level: float = 0.95,
) -> tuple[Pooled, ...]:
    """Pool single proportions for every analysis of a grid, in one vectorised call.

    Parameters, returns and errors as in :func:`pool_proportions`, one record a row of ``grid``.
    """
    known_word("scale", scale, PROPORTION_EFFECTS)
    effects = PROPORTION_EFFECTS[scale](events, total)
    checked_between("random", between, interval, level, models=TWO_STEP_MODELS)
    pooled = effect_records(effects, grid, between, interval, level)
    x, n = as_counts(events, total)
    return tuple(
        counted_record(x, n, effects, mask, between=between, level=level) or record
        for mask, record in zip(grid.mask, pooled, strict=True)
    )


def pool_estimates_grid(
    estimate: ArrayLike,
    variance: ArrayLike,
    grid: AnalysisGrid,
    *,
    model: str = "random",
    between: str = "dersimonian_laird",
    interval: str = "ordinary",
    level: float = 0.95,
) -> tuple[Pooled, ...]:
    """Pool study estimates for every analysis of a grid, in one vectorised call.

    Parameters, returns and errors as in :func:`pool_estimates`, one record a row of ``grid``.
    """
    values, spread = as_estimates(estimate, variance)
    uncorrected = np.zeros(values.size, dtype=np.bool_)
    effects = EffectSizes(values, spread, uncorrected, IDENTITY)
    between = checked_between(model, between, interval, level, models=TWO_STEP_MODELS)
    return effect_records(effects, grid, between, interval, level)


def effect_records(
    effects: EffectSizes,
    grid: AnalysisGrid,
    between: str,
    interval: str,
    level: float,
    *,
    q_about: Floats | None = None,
) -> tuple[Pooled, ...]:
    """Return one record an analysis from effects already formed and options already checked.

    Raises
    ------
    ValueError
        If the grid is not over as many studies.
    """
    grid.refuse_other_width(effects.estimate.size)
    answers = pool_two_step(
        effects.estimate,
        effects.variance,
        grid,
        between=between,
        interval=interval,
        level=level,
        q_about=q_about,
    )
    return tuple(
        pooled_record(answers, row, effects, mask, between=between, interval=interval, level=level)
        for row, mask in enumerate(grid.mask)
    )
