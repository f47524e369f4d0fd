"""Every number a paper might print of these rows, under one variant."""

from collections.abc import Iterator, Mapping
from typing import TypeAlias

import numpy as np
from scipy import special

from evsyn.effects.arguments import Floats
from evsyn.effects.scales import IDENTITY, LOG
from evsyn.pooling.between_study import NO_SPREAD
from evsyn.pooling.egger import regression
from evsyn.pooling.grid import AnalysisGrid
from evsyn.pooling.two_step import pool_two_step
from evsyn.reproduction.effects import effects_of, effects_of_columns
from evsyn.reproduction.line import LEVEL, Line
from evsyn.reproduction.pools import Lines, lines_of_effects, lines_of_sums
from evsyn.reproduction.rows import Kind, Rows
from evsyn.reproduction.variants import Variant

#: Where a number stands: of which line, and what; as ``("overall", "estimate")``,
#: ``("group", "men", "q")``, ``("between", "p")``, ``("weight", "0")``, ``("row", "0", "low")``.
Place: TypeAlias = tuple[str, ...]
#: The numbers, each with one entry a typing of the rows; ``nan`` what a variant does not give.
Numbers: TypeAlias = dict[Place, Floats]

#: Under which other name a number may be meant: both are in print.
ALSO: Mapping[str, str] = {
    "i2": "i2_from_tau2",
    "prediction_low": "prediction_low_k_minus_2",
    "prediction_high": "prediction_high_k_minus_2",
}


def numbers_of(rows: Rows, variant: Variant) -> Numbers:
    """Return every number of the rows as typed.

    Raises
    ------
    ValueError
        If the variant is not defined for these rows.
    """
    effects = effects_of(rows, variant)
    estimate, variance = effects.estimate[np.newaxis], effects.variance[np.newaxis]
    counted = rows.kind in (Kind.COUNTS, Kind.PROPORTION)
    if variant.model in ("mantel_haenszel", "exact") or (counted and variant.q_about):
        lines = lines_of_sums(rows, variant)
    else:
        lines = lines_of_effects(rows, variant, effects, estimate, variance)
    found = dict(_all(rows, lines, estimate, variance))
    if variant.model == "exact" and rows.kind is Kind.PROPORTION:
        found[("overall", "q_likelihood")] = _deviance(*rows.columns)
    return found


def numbers_of_typings(rows: Rows, variant: Variant, columns: Floats) -> Numbers:
    """Return the same for many typings of means or given effects.

    ``columns`` has shape ``(columns, typings, studies)``.
    """
    estimate, variance = effects_of_columns(rows, variant, columns)
    effects = effects_of(rows, variant)
    lines = lines_of_effects(rows, variant, effects, estimate, variance)
    return dict(_all(rows, lines, estimate, variance))


def _all(
    rows: Rows, lines: Lines, estimate: Floats, variance: Floats
) -> Iterator[tuple[Place, Floats]]:
    for name, value in lines.total.numbers():
        yield ("overall", name), value
    for level, line in zip(rows.levels, lines.groups, strict=True):
        for name, value in line.numbers():
            yield ("group", level, name), value
    if len(lines.groups) > 1:
        yield from _between(lines.groups)
    for row, weight in enumerate(lines.weights.T):
        yield ("weight", str(row)), weight
    if rows.kind in (Kind.COUNTS, Kind.MEANS):
        yield from _rows(rows, estimate, variance)
    if rows.kind is not Kind.PROPORTION:
        intercept, _, t, p, _ = regression(estimate[:, rows.informs], variance[:, rows.informs])
        yield ("asymmetry", "intercept"), intercept
        yield ("asymmetry", "t"), np.abs(t)
        yield ("asymmetry", "p"), p


def _between(groups: tuple[Line, ...]) -> Iterator[tuple[Place, Floats]]:
    """Yield the test between subgroups, each pooled by itself: Q of their pooled values."""
    values = np.array([group.on_scale for group in groups]).T
    spread = np.array([group.se_on_scale for group in groups]).T ** 2
    if not np.all(np.isfinite(values) & np.isfinite(spread)):
        return
    grid = AnalysisGrid(("",) * len(values), np.ones(values.shape, dtype=np.bool_))
    test = pool_two_step(values, spread, grid, between=NO_SPREAD, tau2_interval=False)
    yield ("between", "q"), test.q
    yield ("between", "df"), test.df
    yield ("between", "p"), test.p
    yield ("between", "i2"), 100 * test.i2_from_q


def _rows(rows: Rows, estimate: Floats, variance: Floats) -> Iterator[tuple[Place, Floats]]:
    """Yield the effect of each study, with the ordinary interval."""
    back = (LOG if rows.measure.is_ratio else IDENTITY).back
    half = float(special.ndtri((1 + LEVEL) / 2)) * np.sqrt(variance)
    for name, ends in (("estimate", estimate), ("low", estimate - half), ("high", estimate + half)):
        for row, values in enumerate(back(ends).T):
            if rows.informs[row]:
                yield ("row", str(row), name), values


def _deviance(events: Floats, total: Floats) -> Floats:
    """Return the likelihood-ratio form of Q: all studies their own rate, against one for all."""
    rate = events.sum() / total.sum()
    if rate in (0, 1):
        return np.zeros(1)
    parts = special.xlogy(events, events / (total * rate))
    parts = parts + special.xlogy(total - events, (total - events) / (total * (1 - rate)))
    return np.array([2 * parts.sum()])
