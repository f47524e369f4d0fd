"""Differences between levels that are shown where there are none, for many reviews at once."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
from scipy.special import chdtrc, fdtrc

from evsyn.calibration.draw import Ints
from evsyn.calibration.level_spread import columns_of, within_levels
from evsyn.calibration.two_step_lines import every_study, study_effects
from evsyn.effects.arguments import Floats
from evsyn.pooling.between_study.likelihood import maximise
from evsyn.pooling.choose import triggers
from evsyn.pooling.strata_exact import strata_test_exact
from evsyn.pooling.strata_test import StrataTest
from evsyn.pooling.studies import study_rows, weighted_mean
from evsyn.pooling.two_step import pool_two_step


@dataclass(frozen=True, slots=True)
class LevelTests:
    """What one line found in each review.

    Parameters
    ----------
    gaps : ndarray, shape (reviews, pairs)
        Log odds ratio of each pair of levels, first less second.
    p : ndarray, shape (reviews,)
        P of the test that all levels share one centre; ``nan`` without a test.
    """

    gaps: Floats
    p: Floats


@dataclass(frozen=True, slots=True)
class LevelColumns:
    """Which columns of the counts belong to which level, and the size of every study."""

    names: tuple[str, ...]
    parts: tuple[slice, ...]
    sizes: Ints

    @property
    def labels(self) -> list[str]:
        """The level of each column."""
        pairs = zip(self.names, self.parts, strict=True)
        return [name for name, part in pairs for _ in range(part.stop - part.start)]

    @property
    def pairs(self) -> tuple[tuple[str, str], ...]:
        """Every pair of levels."""
        return tuple(combinations(self.names, 2))


def level_columns(levels: Sequence[tuple[str, Sequence[int]]]) -> LevelColumns:
    """Lay the studies of levels side by side."""
    ends = np.cumsum([len(sizes) for _, sizes in levels]).tolist()
    parts = tuple(slice(*bounds) for bounds in zip([0, *ends], ends, strict=False))
    joined = np.array([size for _, sizes in levels for size in sizes], dtype=np.int64)
    return LevelColumns(tuple(name for name, _ in levels), parts, joined)


def headline_tests(events: Ints, columns: LevelColumns, *, between: str) -> LevelTests:
    """Pool each level by itself and compare the pooled values by Q, as most papers do."""
    estimate, variance = study_effects(events, columns.sizes)
    shape = (len(events), len(columns.parts))
    centres, errors = np.empty(shape), np.empty(shape)
    for place, part in enumerate(columns.parts):
        pooled = pool_two_step(
            estimate[:, part],
            variance[:, part],
            every_study(estimate[:, part].shape),
            between=between,
            tau2_interval=False,
        )
        centres[:, place], errors[:, place] = pooled.estimate, pooled.se
    df = len(columns.parts) - 1
    return LevelTests(_gaps(centres), chdtrc(df, _q_between(centres, errors)))


def restricted_ml_tests(events: Ints, columns: LevelColumns) -> LevelTests:
    """Test by restricted ML with one spread and the floored Hartung-Knapp variance.

    The same as :func:`evsyn.pooling.strata_two_step.strata_test_two_step`, for all reviews at
    once: where each study belongs to one level, the centres are those of the levels by themselves
    and the restricted likelihood is the product of theirs.
    """
    estimate, variance = study_effects(events, columns.sizes)
    studies = study_rows(estimate, variance, np.ones(estimate.shape, dtype=np.bool_))
    spread = maximise(studies, within_levels(columns.parts))
    shape = (len(events), len(columns.parts))
    centres, errors, squares = np.empty(shape), np.empty(shape), np.zeros(len(events))
    for place, part in enumerate(columns.parts):
        at = weighted_mean(columns_of(studies, part), spread.tau2)
        centres[:, place], errors[:, place] = at.mean, at.se
        squares += at.q
    df1, df2 = len(columns.parts) - 1, columns.sizes.size - len(columns.parts)
    factor = np.maximum(1.0, squares / df2)
    statistic = _q_between(centres, errors) / factor / df1
    p = np.where(spread.converged, fdtrc(df1, df2, statistic), np.nan)
    return LevelTests(_gaps(centres), p)


def exact_tests(events: Ints, columns: LevelColumns) -> LevelTests:
    """Test by the likelihood ratio of the exact model, one review at a time."""
    labels = columns.labels
    tests = [strata_test_exact(row, columns.sizes, labels) for row in events]
    gaps = [_contrasts(test, len(columns.pairs)) for test in tests]
    return LevelTests(
        np.array(gaps).reshape(len(tests), len(columns.pairs)), np.array([one.p for one in tests])
    )


def few_events(events: Ints, columns: LevelColumns) -> list[bool]:
    """Say of each review whether the tool would quote the exact test."""
    return [
        any(triggers(row[part], columns.sizes[part]) for part in columns.parts) for row in events
    ]


def _gaps(centres: Floats) -> Floats:
    pairs = list(combinations(range(centres.shape[1]), 2))
    return np.stack([centres[:, first] - centres[:, second] for first, second in pairs], axis=1)


def _q_between(centres: Floats, errors: Floats) -> Floats:
    weight = 1 / errors**2
    mean = (weight * centres).sum(axis=1) / weight.sum(axis=1)
    return np.asarray((weight * (centres - mean[:, np.newaxis]) ** 2).sum(axis=1))


def _contrasts(test: StrataTest, pairs: int) -> list[float]:
    return [one.estimate for one in test.differences] or [np.nan] * pairs
