"""The total and every subgroup, pooled as a variant says: one line each."""

from dataclasses import dataclass, replace

import numpy as np
from scipy import special

from evsyn.effects.arguments import Floats
from evsyn.effects.proportions import EffectSizes
from evsyn.effects.scales import SCALES
from evsyn.pooling.between_study import NO_SPREAD
from evsyn.pooling.binomial_normal.pool import pool_binomial_normal
from evsyn.pooling.comparisons import pool_comparisons_grid
from evsyn.pooling.grid import AnalysisGrid, by_level, join, overall
from evsyn.pooling.result import Pooled
from evsyn.pooling.two_step import pool_two_step
from evsyn.reproduction.effects import contrast_of
from evsyn.reproduction.line import LEVEL, Line, line_of_answers, line_of_record
from evsyn.reproduction.rows import Kind, Rows
from evsyn.reproduction.variants import Variant

_COMMON = ("common", "peto")


@dataclass(frozen=True, slots=True)
class Lines:
    """The total, the subgroups in the order of the rows, and the weights of the total.

    ``weights`` has shape ``(typings, studies)``, in per cent; empty where a model has none.
    """

    total: Line
    groups: tuple[Line, ...]
    weights: Floats


def lines_of_sums(rows: Rows, variant: Variant) -> Lines:
    """Pool counts by a model that works on the counts themselves.

    Raises
    ------
    ValueError
        If the variant is not defined for these rows.
    """
    if rows.kind is Kind.COUNTS:
        records = _counts(rows, variant, _grid(rows))
    else:
        masks = _grid(rows).mask
        records = tuple(_binomial_normal(rows.columns[:, mask], variant) for mask in masks)
    total, *groups = map(line_of_record, records)
    return Lines(total, tuple(groups), 100 * np.array([records[0].weights]))


def lines_of_effects(
    rows: Rows, variant: Variant, effects: EffectSizes, estimate: Floats, variance: Floats
) -> Lines:
    """Pool effects in two steps, those of many typings of the rows at once.

    Parameters
    ----------
    rows : Rows
        Says which subgroups there are, which rows enter, and how large the arms are.
    variant : Variant
        How to pool.
    effects : EffectSizes
        The effects as typed: says what scale they are on.
    estimate, variance : ndarray
        Shape ``(typings, studies)``.
    """
    masks = _grid(rows).mask & rows.informs
    lines, typings = len(masks), len(estimate)
    values, spread = np.repeat(estimate, lines, axis=0), np.repeat(variance, lines, axis=0)
    grid = AnalysisGrid(("",) * (lines * typings), np.tile(masks, (typings, 1)))
    answers = pool_two_step(
        values,
        spread,
        grid,
        between=NO_SPREAD if variant.model in _COMMON else variant.between,
        interval=variant.interval,
        tau2_interval=False,
        q_about=_mantel_haenszel(rows, values, grid) if variant.q_about else None,
    )
    total, *groups = (
        line_of_answers(
            answers,
            slice(at, None, lines),
            int(mask.sum()),
            effects.scale_of(mask),
            variant.interval,
        )
        for at, mask in enumerate(masks)
    )
    tau2 = np.nan_to_num(total.tau2)[:, np.newaxis]
    weights = masks[0] / (variance + tau2)
    whole = np.maximum(weights.sum(axis=1, keepdims=True), np.finfo(np.float64).tiny)
    return Lines(total, tuple(groups), 100 * weights / whole)


def _mantel_haenszel(rows: Rows, values: Floats, grid: AnalysisGrid) -> Floats:
    """Return the Mantel-Haenszel difference of each analysis, from differences and sizes of arms.

    Its weights are the product of the arms over their sum.
    """
    assert rows.sizes is not None
    shares = grid.mask * (rows.sizes.prod(axis=0) / rows.sizes.sum(axis=0))
    return np.asarray((values * shares).sum(axis=1) / shares.sum(axis=1), dtype=np.float64)


def _grid(rows: Rows) -> AnalysisGrid:
    everyone = overall(len(rows.groups))
    return join(everyone, by_level(rows.groups, rows.levels)) if rows.levels else everyone


def _counts(rows: Rows, variant: Variant, grid: AnalysisGrid) -> tuple[Pooled, ...]:
    x_1, n_1, x_2, n_2 = rows.columns
    records = pool_comparisons_grid(
        x_1,
        n_1,
        x_2,
        n_2,
        grid,
        contrast=contrast_of(rows, variant),
        model=variant.model,
        level=LEVEL,
        zero_cells=variant.zero_cells or "half_in_effects",
        q_about=variant.q_about or "inverse_variance",
    )
    wald = variant.model == "exact" and variant.interval == "ordinary"
    return tuple(_wald(record) if wald else record for record in records)


def _binomial_normal(columns: Floats, variant: Variant) -> Pooled:
    record = pool_binomial_normal(*columns, level=LEVEL)
    return _wald(record) if variant.interval == "ordinary" else record


def _wald(record: Pooled) -> Pooled:
    """Give an exact model the interval of the normal distribution."""
    if record.k < 2:
        return record
    half = float(special.ndtri((1 + LEVEL) / 2)) * record.se_on_scale
    ends = np.array([record.estimate_on_scale - half, record.estimate_on_scale + half])
    low, high = SCALES[record.scale].back(ends).tolist()
    return replace(record, low=low, high=high, interval="ordinary")
