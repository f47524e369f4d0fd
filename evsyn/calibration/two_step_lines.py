"""The two-step rows of many reviews at once."""

import numpy as np
from numpy.typing import NDArray

from evsyn.calibration.draw import Ints
from evsyn.calibration.measures import Intervals
from evsyn.effects.arguments import Floats
from evsyn.effects.proportions import logit_effects
from evsyn.pooling.grid import AnalysisGrid
from evsyn.pooling.two_step import pool_two_step


def study_effects(events: Ints, sizes: Ints) -> tuple[Floats, Floats]:
    """Return log-odds and variances of every study of every review, shape as ``events``."""
    total = np.broadcast_to(sizes, events.shape)
    effects = logit_effects(events.ravel(), total.ravel())
    return effects.estimate.reshape(events.shape), effects.variance.reshape(events.shape)


def two_step_line(
    events: Ints, sizes: Ints, *, between: str, interval: str, level: float
) -> Intervals:
    """Pool every review on the logit scale in one call.

    Parameters
    ----------
    events : ndarray, shape (reviews, studies)
        Counts.
    sizes : ndarray, shape (studies,)
        Totals, the same in every review.
    between, interval, level
        As in :func:`evsyn.pooling.functions.pool_proportions`.

    Notes
    -----
    As the tool does, a review without an event, or with events only, gets no answer.
    """
    estimate, variance = study_effects(events, sizes)
    pooled = pool_two_step(
        estimate,
        variance,
        every_study(events.shape),
        between=between,
        interval=interval,
        level=level,
        tau2_interval=False,
    )
    seen = events.sum(axis=1)
    answered = (seen > 0) & (seen < sizes.sum()) & pooled.converged
    return Intervals(*(only(answered, x) for x in (pooled.estimate, pooled.low, pooled.high)))


def every_study(shape: tuple[int, ...]) -> AnalysisGrid:
    """Return a grid of reviews with all their studies."""
    return AnalysisGrid(("",) * shape[0], np.ones(shape, dtype=np.bool_))


def only(answered: NDArray[np.bool_], values: Floats) -> Floats:
    """Return values, ``nan`` where there is no answer."""
    return np.where(answered, values, np.nan)
