"""From arrays on the analysis scale to records on the original one."""

import math

import numpy as np
from numpy.typing import NDArray

from evsyn.effects.arguments import Floats
from evsyn.effects.intervals import clopper_pearson
from evsyn.effects.proportions import EffectSizes
from evsyn.pooling.between_study import NO_SPREAD
from evsyn.pooling.result import Pooled, Status
from evsyn.pooling.two_step import PooledEstimates

MODEL, COMMON = "random_effects", "common_effect"


def pooled_record(
    answers: PooledEstimates,
    analysis: int,
    effects: EffectSizes,
    mask: NDArray[np.bool_],
    *,
    between: str,
    interval: str,
    level: float,
) -> Pooled:
    """Return one analysis as a record, back on the original scale.

    Parameters
    ----------
    answers : PooledEstimates
        Answers to the whole grid.
    analysis : int
        Row of the grid.
    effects : EffectSizes
        Study effects, with their scale.
    mask : ndarray of bool
        Shape ``(studies,)``: the studies of this analysis.
    between, interval : str
        Names the answers were made with.
    level : float
        Two-sided level.

    Returns
    -------
    Pooled
    """
    k = int(mask.sum())
    scale = effects.scale_of(mask)

    def value(name: str) -> float:
        return float(getattr(answers, name)[analysis])

    def back(name: str) -> float:
        return float(scale.back(getattr(answers, name)[analysis]))

    many = k >= 2
    converged = bool(answers.converged[analysis])
    notes = ("tau2_at_zero",) * (value("tau2") == 0)
    notes += ("half_added",) * bool(np.any(effects.corrected & mask))
    notes += ("scale_to_match_print",) * scale.for_print
    common = between == NO_SPREAD
    return Pooled(
        model=COMMON if common else MODEL,
        scale=scale.name,
        between=between,
        interval=interval if many else "ordinary",
        level=level,
        k=k,
        status=_status(k, converged),
        estimate=back("estimate"),
        low=back("low"),
        high=back("high"),
        estimate_on_scale=value("estimate"),
        se_on_scale=value("se"),
        tau2=value("tau2"),
        tau2_low=value("tau2_low"),
        tau2_high=value("tau2_high"),
        q=value("q"),
        df=value("df"),
        p=value("p"),
        i2=value("i2"),
        i2_from_q=value("i2_from_q"),
        prediction_low=back("prediction_low"),
        prediction_high=back("prediction_high"),
        prediction_df=value("prediction_df"),
        weights=_shares(effects.variance, mask, value("tau2") if many and not common else 0.0),
        converged=converged,
        floor_active=bool(answers.floor_active[analysis]),
        notes=notes,
        corrected=places(effects.corrected & mask),
    )


def counted_record(
    events: Floats,
    total: Floats,
    effects: EffectSizes,
    mask: NDArray[np.bool_],
    *,
    between: str,
    level: float,
) -> Pooled | None:
    """Return the record of counts that are not pooled on any scale, or None where they are.

    One study alone keeps its own proportion and exact interval. Studies all at 0%, or all at
    100%, have no pooled value on the scale and no spread: their total stands, with its exact
    interval.
    """
    x, n = events[mask], total[mask]
    status = _counted_status(x, n)
    if status is None:
        return None
    low, high = clopper_pearson([x.sum()], [n.sum()], level=level)
    alone = status is Status.ONE_STUDY
    # At 0% or 100% the effect would be that of the added halves, not of the study.
    on_scale = alone and not effects.corrected[mask][0]
    return Pooled(
        model=MODEL,
        scale=effects.scale.name,
        between=between,
        interval="clopper_pearson",
        level=level,
        k=x.size,
        status=status,
        estimate=float(x.sum() / n.sum()),
        low=float(low[0]),
        high=float(high[0]),
        estimate_on_scale=float(effects.estimate[mask][0]) if on_scale else math.nan,
        se_on_scale=math.sqrt(effects.variance[mask][0]) if on_scale else math.nan,
        weights=_shares(effects.variance, mask, 0.0) if alone else (),
    )


def places(chosen: NDArray[np.bool_]) -> tuple[int, ...]:
    """Return the places of the chosen studies, from 0."""
    return tuple(np.flatnonzero(chosen).tolist())


def _counted_status(events: Floats, total: Floats) -> Status | None:
    if events.size == 0:
        return None
    if events.size == 1:
        return Status.ONE_STUDY
    if np.all(events == 0):
        return Status.ALL_ZERO
    return Status.ALL_FULL if np.all(events == total) else None


def _status(k: int, converged: bool) -> Status:
    if k < 2:
        return Status.ONE_STUDY if k else Status.NO_STUDY
    return Status.POOLED if converged else Status.NOT_CONVERGED


def _shares(variance: Floats, mask: NDArray[np.bool_], tau2: float) -> tuple[float, ...]:
    weights = mask / (variance + tau2)
    return tuple((weights / weights.sum()).tolist()) if mask.any() else ()
