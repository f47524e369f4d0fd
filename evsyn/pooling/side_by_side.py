"""Pool many sets of counts at once, each set having its own studies."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from evsyn.effects.arguments import as_counts
from evsyn.effects.proportions import EffectSizes, logit_effects
from evsyn.pooling.grid import AnalysisGrid
from evsyn.pooling.options import checked_between
from evsyn.pooling.records import counted_record, pooled_record
from evsyn.pooling.result import Pooled
from evsyn.pooling.two_step import pool_two_step

Ints = NDArray[np.int64]


def pool_proportions_sets(
    sets: Sequence[tuple[Ints, Ints]], *, between: str, interval: str = "ordinary", level: float
) -> tuple[Pooled, ...]:
    """Pool sets of counts on the logit scale in one vectorised call.

    The sets are laid one under the other, each from the left, and what is short is masked. So the
    work grows with the number of sets and not with its square, as it would in a grid over the
    studies of all of them.

    Parameters
    ----------
    sets : sequence of (events, total)
        Counts of each set, one entry a study; a set may be empty.
    between, interval, level
        As in :func:`evsyn.pooling.functions.pool_proportions`.

    Returns
    -------
    tuple of Pooled
        One record a set, in order.

    Raises
    ------
    ValueError
        If the counts are impossible, or an option or the level is not known.
    """
    checked_between("random", between, interval, level, models=("random",))
    effects = [logit_effects(events, total) for events, total in sets]
    sizes = np.array([one.estimate.size for one in effects], dtype=np.int64)
    mask = np.arange(sizes.max(initial=0)) < sizes[:, np.newaxis]
    estimate, variance = np.zeros(mask.shape), np.ones(mask.shape)
    if sizes.sum():
        estimate[mask] = np.concatenate([one.estimate for one in effects])
        variance[mask] = np.concatenate([one.variance for one in effects])
    grid = AnalysisGrid(tuple(map(str, range(len(sets)))), mask)
    answers = pool_two_step(
        estimate, variance, grid, between=between, interval=interval, level=level
    )

    def record(number: int, one: EffectSizes) -> Pooled:
        everyone = np.ones(one.estimate.size, dtype=np.bool_)
        counts = as_counts(*sets[number])
        counted = counted_record(*counts, one, everyone, between=between, level=level)
        return counted or pooled_record(
            answers, number, one, everyone, between=between, interval=interval, level=level
        )

    return tuple(record(number, one) for number, one in enumerate(effects))
