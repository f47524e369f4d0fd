"""The exact row and the row to read, one review at a time, by the tool's own choice."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.special import logit

from evsyn.calibration.draw import Ints, table_of
from evsyn.calibration.measures import Intervals
from evsyn.calibration.units import TrueChances, flagged_counts
from evsyn.effects.arguments import Floats
from evsyn.pooling.answer import PoolAnswer, Row
from evsyn.pooling.choose import answer_tables
from evsyn.pooling.result import Pooled, Status

#: Reviews pooled in one call; more of them only take memory.
_AT_ONCE = 50


@dataclass(frozen=True, slots=True, eq=False)
class ToolAnswers:
    """What the tool answers to each review.

    Parameters
    ----------
    exact, reading : Intervals
        The exact row, and the row to read.
    shares : ndarray, shape (reviews, 3)
        Chances of an ordinary unit called more, and fewer, and of a unit at the doubled risk seen.
    verdict : ndarray, shape (reviews,)
        1 where the review gives a verdict, else 0.
    """

    exact: Intervals
    reading: Intervals
    shares: Floats
    verdict: Floats


def tool_answers(
    events: Ints, sizes: Sequence[int], truth: TrueChances, *, between: str, level: float
) -> ToolAnswers:
    """Pool reviews as the tool does, each by every row.

    Parameters
    ----------
    events : ndarray, shape (reviews, studies)
        Counts.
    sizes : sequence of int
        Totals, the same in every review.
    truth : TrueChances
        True chances of a new unit's counts.
    between, level
        As in :func:`evsyn.pooling.choose.answer_tables`.
    """
    answers: list[PoolAnswer] = []
    for start in range(0, len(events), _AT_ONCE):
        tables = [table_of(row.tolist(), sizes) for row in events[start : start + _AT_ONCE]]
        answers += answer_tables(tables, between=between, level=level, in_full=False)
    found = [flagged_counts(answer, truth.ordinary.size - 1) for answer in answers]
    reading = [None if one.reading is None else one.reading.pooled for one in answers]
    shares = np.array([truth.shares(one) for one in found]).reshape(len(answers), 3)
    return ToolAnswers(
        exact=_intervals([one.rows.get(Row.EXACT) for one in answers]),
        reading=_intervals(reading),
        shares=shares,
        verdict=np.array([float(one is not None) for one in found]),
    )


def _intervals(rows: Sequence[Pooled | None]) -> Intervals:
    """Return the limits of records on the log-odds scale; those without an answer are ``nan``."""
    told = [
        (one.estimate, one.low, one.high)
        if one is not None and one.status is Status.POOLED
        else (np.nan, np.nan, np.nan)
        for one in rows
    ]
    columns = logit(np.array(told).reshape(len(told), 3)).T
    return Intervals(*columns)
