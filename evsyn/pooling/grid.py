"""A grid of questions: which studies enter which analysis."""

from collections.abc import Hashable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray


@dataclass(frozen=True, slots=True)
class AnalysisGrid:
    """Analyses by studies; a study that is masked out has weight 0 in that analysis.

    Parameters
    ----------
    labels : tuple of str
        Name of each analysis.
    mask : ndarray of bool
        Shape ``(analyses, studies)``; True where the study enters.

    Raises
    ------
    ValueError
        If the mask is not two-dimensional, not true-or-false, or has not one row a label.
    """

    labels: tuple[str, ...]
    mask: NDArray[np.bool_]

    def __post_init__(self) -> None:
        if self.mask.ndim != 2 or self.mask.dtype != np.bool_:
            raise ValueError("mask must be a table of True and False, analyses by studies")
        if len(self.labels) != self.mask.shape[0]:
            raise ValueError(
                f"labels must name every row of mask; got {len(self.labels)} labels for "
                f"{self.mask.shape[0]} rows"
            )

    @property
    def k(self) -> NDArray[np.int64]:
        """Number of studies in each analysis."""
        return np.asarray(self.mask.sum(axis=1), dtype=np.int64)

    def refuse_other_width(self, studies: int) -> None:
        """Refuse with a ``ValueError`` a grid that is not over so many studies."""
        if self.mask.shape[1] != studies:
            raise ValueError(
                f"grid must have one column a study; got {self.mask.shape[1]} columns for "
                f"{studies} studies"
            )


def overall(studies: int, label: str = "overall") -> AnalysisGrid:
    """Return one analysis that holds all studies."""
    return AnalysisGrid((label,), np.ones((1, studies), dtype=np.bool_))


def by_level(values: Sequence[Hashable], levels: Sequence[Hashable] | None = None) -> AnalysisGrid:
    """Return one analysis a level, each holding the studies of that level.

    Parameters
    ----------
    values : sequence
        Level of each study, in study order.
    levels : sequence, optional
        Levels to show, in order; those of ``values``, in order of first sight, by default. A level
        no study has becomes an empty analysis.
    """
    shown = list(dict.fromkeys(values)) if levels is None else list(levels)
    mask = np.array([[value == level for value in values] for level in shown], dtype=np.bool_)
    return AnalysisGrid(tuple(map(str, shown)), mask.reshape(len(shown), len(values)))


def leave_one_out(studies: Sequence[str]) -> AnalysisGrid:
    """Return one analysis a study, each holding all studies but that one."""
    return AnalysisGrid(tuple(studies), ~np.eye(len(studies), dtype=np.bool_))


def join(*grids: AnalysisGrid) -> AnalysisGrid:
    """Return the analyses of several grids over the same studies, end to end.

    Raises
    ------
    ValueError
        If no grid is given, or the grids are not over the same number of studies.
    """
    widths = {grid.mask.shape[1] for grid in grids}
    if len(widths) != 1:
        raise ValueError(f"grids must be over the same studies; got widths {sorted(widths)}")
    labels = tuple(label for grid in grids for label in grid.labels)
    return AnalysisGrid(labels, np.concatenate([grid.mask for grid in grids]))
