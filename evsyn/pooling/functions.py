"""Pooling for notebooks and for every room to the right: plain arrays in, records out."""

import numpy as np
from numpy.typing import ArrayLike

from evsyn.effects.arguments import as_counts, as_estimates, as_level, known_word
from evsyn.effects.proportions import PROPORTION_EFFECTS, EffectSizes
from evsyn.effects.scales import IDENTITY
from evsyn.pooling.between_study import ESTIMATORS
from evsyn.pooling.grid import AnalysisGrid, overall
from evsyn.pooling.records import counted_record, pooled_record
from evsyn.pooling.result import Pooled
from evsyn.pooling.summary_interval import INTERVALS
from evsyn.pooling.two_step import pool_two_step


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
    scale : {"logit"}
        Analysis scale. Half an event is added only in studies at 0% or 100%.
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
        ``_on_scale`` in log-odds. One study keeps its own proportion with its Clopper-Pearson
        interval; so does the total where all studies are at 0%, or all at 100%.

    Raises
    ------
    ValueError
        If the counts are impossible, or an option or the level is not known.

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
    between: str = "dersimonian_laird",
    interval: str = "ordinary",
    level: float = 0.95,
) -> Pooled:
    """Pool study estimates by two-step random effects, on the scale they are given on.

    Parameters
    ----------
    estimate, variance : array_like
        One estimate and its sampling variance a study. Ratios go in as logarithms, and come out
        as logarithms.
    between, interval, level
        As in :func:`pool_proportions`.

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
        *effects, overall(effects[0].size), between=between, interval=interval, level=level
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
    pooled = _records(effects, grid, between, interval, level)
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
    return _records(effects, grid, between, interval, level)


def _records(
    effects: EffectSizes, grid: AnalysisGrid, between: str, interval: str, level: float
) -> tuple[Pooled, ...]:
    known_word("between", between, ESTIMATORS)
    known_word("interval", interval, INTERVALS)
    as_level(level)
    if grid.mask.shape[1] != effects.estimate.size:
        raise ValueError(
            f"grid must have one column a study; got {grid.mask.shape[1]} columns for "
            f"{effects.estimate.size} studies"
        )
    answers = pool_two_step(
        effects.estimate, effects.variance, grid, between=between, interval=interval, level=level
    )
    return tuple(
        pooled_record(answers, row, effects, mask, between=between, interval=interval, level=level)
        for row, mask in enumerate(grid.mask)
    )
