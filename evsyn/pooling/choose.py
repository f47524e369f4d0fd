"""Pool sets of counts by every row, and choose the one to read.

Why not always the headline: with few events two-step pooling on the logit scale is biased
towards one half, and no wider interval mends that; the exact model is not. Source: Lin L, Chu H.
Epidemiology 2020;31:713-717, table 2.
"""

import math
from collections.abc import Collection, Sequence

import numpy as np
from numpy.typing import NDArray
from scipy.special import expit

from evsyn.cells.cell import CellTable
from evsyn.effects.intervals import clopper_pearson, one_sided_full_limit, one_sided_zero_limit
from evsyn.pooling.answer import (
    Differs,
    Disagreement,
    PoolAnswer,
    Reading,
    Row,
    Show,
    Trigger,
)
from evsyn.pooling.beta_binomial import pool_beta_binomial
from evsyn.pooling.binomial_normal.one_sample import t_limits
from evsyn.pooling.reading import (
    beta_binomial_reading,
    exact_row,
    restricted_ml_reading,
    with_wide_enough_range,
)
from evsyn.pooling.result import Pooled, Status
from evsyn.pooling.side_by_side import pool_proportions_sets
from evsyn.terms import Interval

LEAST_TO_READ = 3
FEW_IN_A_STUDY, FEW_IN_ALL, RARE = 5, 20, 0.05
GAP_POINTS, GAP_SHARE, WIDTH_RATIO = 0.005, 0.2, 1.5
ONE_SIDED_LEVEL = 0.95
#: The beta-binomial likelihood is a sum over counts, and slow where a study is larger than this.
LARGEST_FOR_BETA_BINOMIAL = 20_000
NO_TRIGGER = "every study has at least 5 events and 5 non-events"

Ints = NDArray[np.int64]


def answer_tables(
    tables: Sequence[CellTable],
    *,
    between: str,
    level: float,
    refused: Collection[str] = (),
    in_full: bool = True,
) -> tuple[PoolAnswer, ...]:
    """Pool evidence tables, all two-step rows in one call.

    Parameters
    ----------
    tables : sequence of CellTable
        One table a question.
    between : str
        Between-study estimator of the headline row.
    level : float
        Two-sided level of every interval.
    refused : collection of str
        Outcomes the plan forbids pooling.
    in_full : bool
        Whether every part is made. Without it the beta-binomial row stands only where it is read,
        and the limits of the exact row's spread, with what is re-estimated at them, are ``nan``:
        the row to read is the same, several times sooner.

    Returns
    -------
    tuple of PoolAnswer
        One answer a table, in order.
    """
    sets = [_counts(table) for table in tables]
    headline = pool_proportions_sets(sets, between=between, level=level)
    restricted = pool_proportions_sets(
        sets, between="restricted_ml", interval="hartung_knapp_floor", level=level
    )
    return tuple(
        _answer(
            *sets[number],
            headline[number],
            with_wide_enough_range(restricted[number]),
            level=level,
            refused=table.question.outcome in refused,
            in_full=in_full,
        )
        for number, table in enumerate(tables)
    )


def _counts(table: CellTable) -> tuple[Ints, Ints]:
    events = np.array([cell.events for cell in table.cells], dtype=np.int64)
    return events, np.array([cell.total for cell in table.cells], dtype=np.int64)


def shown(events: Ints, total: Ints, *, refused: bool = False) -> Show:
    """Say how much may be shown of a set of counts."""
    k = events.size
    if k == 0:
        return Show.NOTHING
    if refused:
        return Show.REFUSED
    if k == 1:
        return Show.ONE
    if events.sum() == 0:
        return Show.ALL_ZERO
    if events.sum() == total.sum():
        return Show.ALL_FULL
    if k == 2:
        return Show.TWO
    return Show.FEW if k < 5 else Show.SOME if k < 10 else Show.MANY


def triggers(events: Ints, total: Ints) -> tuple[Trigger, ...]:
    """Name each reason why the exact model is read instead of the two-step one."""
    rest = total - events
    crude = events.sum() / total.sum()
    fired = {
        Trigger.FEW_IN_A_STUDY: bool((np.minimum(events, rest) < FEW_IN_A_STUDY).any()),
        Trigger.FEW_IN_ALL: min(events.sum(), rest.sum()) < FEW_IN_ALL,
        Trigger.RARE: not RARE <= crude <= 1 - RARE,
    }
    return tuple(trigger for trigger, on in fired.items() if on)


def _answer(
    events: Ints,
    total: Ints,
    headline: Pooled,
    restricted: Pooled,
    *,
    level: float,
    refused: bool,
    in_full: bool,
) -> PoolAnswer:
    show = shown(events, total, refused=refused)
    rows: dict[Row, Pooled] = {}
    reading: Reading | None = None
    if show.pooled:
        exact = exact_row(events, total, level=level, limits_of_tau=in_full)
        rows = {
            Row.HEADLINE: headline,
            Row.RESTRICTED_ML: restricted,
            Row.EXACT: exact.pooled,
        }
        fired = [str(trigger) for trigger in triggers(events, total)]
        is_wanted = in_full or (fired and exact.pooled.status is not Status.POOLED)
        if is_wanted and total.max() <= LARGEST_FOR_BETA_BINOMIAL:
            rows[Row.BETA_BINOMIAL] = pool_beta_binomial(events, total, level=level)
        if fired:
            reading = exact.reading(fired) or beta_binomial_reading(
                events, total, rows.get(Row.BETA_BINOMIAL), reasons=fired
            )
        else:
            reading = restricted_ml_reading(events, total, restricted, reasons=[NO_TRIGGER])
        if reading is not None:
            rows[reading.row] = reading.pooled
    return PoolAnswer(
        events=tuple(events.tolist()),
        total=tuple(total.tolist()),
        show=show,
        crude=None if refused else _crude(events, total, level),
        one_sided=_one_sided(show, events, total),
        rows=rows,
        reading=reading,
        disagreements=_disagreements(rows, reading),
        second_prediction=_second_prediction(reading, events.size, level),
    )


def _crude(events: Ints, total: Ints, level: float) -> Interval | None:
    if events.size == 0:
        return None
    low, high = clopper_pearson([events.sum()], [total.sum()], level=level)
    return Interval(float(low[0]), float(high[0]), level, "clopper_pearson")


def _one_sided(show: Show, events: Ints, total: Ints) -> float | None:
    if show in (Show.NOTHING, Show.REFUSED) or 0 < events.sum() < total.sum():
        return None
    if events.sum() == 0:
        return float(one_sided_zero_limit([total.sum()], level=ONE_SIDED_LEVEL)[0])
    return float(one_sided_full_limit([total.sum()], level=ONE_SIDED_LEVEL)[0])


def _disagreements(rows: dict[Row, Pooled], reading: Reading | None) -> tuple[Disagreement, ...]:
    """Compare the rows: values apart by half a point and a fifth, or widths by one half.

    The beta-binomial row is left out: its value is a mean over settings, and not a median.
    """
    settled = [
        row
        for name, row in rows.items()
        if name is not Row.BETA_BINOMIAL and row.status is Status.POOLED
    ]
    if reading is None or len(settled) < 2:
        return ()
    found = []
    values = [row.estimate for row in settled]
    gap, centre = max(values) - min(values), reading.pooled.estimate
    if gap >= GAP_POINTS and gap >= GAP_SHARE * min(centre, 1 - centre):
        found.append(Disagreement(Differs.POINTS, min(values), max(values)))
    widths = [row.high - row.low for row in settled]
    if max(widths) > WIDTH_RATIO * min(widths):
        found.append(Disagreement(Differs.WIDTHS, min(widths), max(widths)))
    return tuple(found)


def _second_prediction(reading: Reading | None, k: int, level: float) -> Interval | None:
    """Predict at the larger plausible spread, where next to none was seen."""
    if reading is None or reading.at_tau_hi is None:
        return None
    at = reading.at_tau_hi
    if not math.isfinite(at.se):
        return None
    low, high = t_limits(at.mu, math.hypot(at.tau, at.se), k - 1, level)
    return Interval(float(expit(low)), float(expit(high)), level, "t_k_minus_1_at_larger_tau")
