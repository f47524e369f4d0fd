"""Do the levels of a stratum differ? The record of one test of difference."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import combinations

import numpy as np
from numpy.typing import NDArray
from scipy.special import stdtrit

from evsyn.effects.arguments import Floats

#: Levels with fewer studies are shown but not tested.
LEAST_STUDIES = 3


class StrataStatus(StrEnum):
    """Whether the test could be made."""

    TESTED = "tested"
    TOO_FEW_LEVELS = "too_few_levels"
    NO_INFORMATION = "no_information"
    NOT_CONVERGED = "not_converged"


@dataclass(frozen=True, slots=True)
class Contrast:
    """Difference between two levels, first less second, on the analysis scale.

    Parameters
    ----------
    first, second : str
        The levels.
    estimate, se, low, high : float
        Difference of log-odds (or of effects), standard error, t limits; ``nan`` where one level
        has no event at all or only events, so that its log-odds do not exist.
    """

    first: str
    second: str
    estimate: float
    se: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class StrataTest:
    """One test that all levels share one centre, with one between-study spread.

    Parameters
    ----------
    method : str
        ``exact_likelihood_ratio`` or ``restricted_ml_hartung_knapp_floor``.
    status : StrataStatus
        Whether the test could be made.
    levels : tuple of str
        Levels tested, those with at least three studies, in order of first appearance.
    k_by_level : tuple of int
        Studies in each.
    left_out : tuple of str
        Levels with fewer studies.
    tau2 : float
        Between-study variance common to the levels, analysis scale.
    statistic : float
        F: likelihood ratio or Wald statistic over ``df1``.
    df1, df2 : int
        Levels less 1, studies less levels.
    p : float
        Upper tail of F.
    differences : tuple of Contrast
        Every pair of levels.
    exploratory : bool
        Fewer than five studies in a level or fewer than ten in all.
    level : float
        Two-sided level of the limits of the differences.
    """

    method: str
    status: StrataStatus
    levels: tuple[str, ...]
    k_by_level: tuple[int, ...]
    left_out: tuple[str, ...]
    level: float
    tau2: float = np.nan
    statistic: float = np.nan
    p: float = np.nan
    differences: tuple[Contrast, ...] = ()

    @property
    def df1(self) -> int:
        """Levels less 1."""
        return max(len(self.levels) - 1, 0)

    @property
    def df2(self) -> int:
        """Studies less levels."""
        return sum(self.k_by_level) - len(self.levels)

    @property
    def exploratory(self) -> bool:
        """Fewer than five studies in a level or fewer than ten in all."""
        return min(self.k_by_level, default=0) < 5 or sum(self.k_by_level) < 10


@dataclass(frozen=True, slots=True)
class Layout:
    """Which studies are tested, and the indicator columns of their levels.

    Parameters
    ----------
    chosen : ndarray of bool, shape (studies,)
        Studies in levels large enough to test.
    design : ndarray, shape (k, levels)
        1 where a chosen study belongs to a level.
    levels, left_out : tuple of str
        Levels tested and not.
    """

    chosen: NDArray[np.bool_]
    design: Floats
    levels: tuple[str, ...]
    left_out: tuple[str, ...]

    @property
    def k_by_level(self) -> tuple[int, ...]:
        """Studies in each level tested."""
        return tuple(int(count) for count in self.design.sum(axis=0))


def lay_out(levels: Sequence[str], studies: int) -> Layout:
    """Return the layout of studies by level.

    Parameters
    ----------
    levels : sequence of str, length k
        The level of each study.
    studies : int
        Number of studies there should be.

    Raises
    ------
    ValueError
        If there is not one level a study.
    """
    labels = [str(level) for level in levels]
    if len(labels) != studies:
        raise ValueError(
            f"levels must hold one entry a study; got {len(labels)} for {studies} studies"
        )
    names = list(dict.fromkeys(labels))
    tested = tuple(name for name in names if labels.count(name) >= LEAST_STUDIES)
    chosen = np.array([label in tested for label in labels], dtype=np.bool_)
    columns = [[float(label == name) for name in tested] for label in labels if label in tested]
    design = np.array(columns).reshape(int(chosen.sum()), len(tested))
    left_out = tuple(name for name in names if name not in tested)
    return Layout(chosen, design, tested, left_out)


def contrasts(
    levels: Sequence[str], beta: Floats, covariance: Floats, df: int, level: float
) -> tuple[Contrast, ...]:
    """Return the difference of every pair of levels with its t interval."""
    return tuple(_contrasts(levels, beta, covariance, float(stdtrit(df, (1 + level) / 2))))


def _contrasts(
    levels: Sequence[str], beta: Floats, covariance: Floats, t: float
) -> Iterator[Contrast]:
    for i, j in combinations(range(len(levels)), 2):
        difference = float(beta[i] - beta[j])
        variance = covariance[i, i] + covariance[j, j] - 2 * covariance[i, j]
        se = float(np.sqrt(variance))
        yield Contrast(
            levels[i], levels[j], difference, se, difference - t * se, difference + t * se
        )
