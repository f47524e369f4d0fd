"""Two-step pooling: study effects in, one vectorised answer to a whole grid out."""

from dataclasses import dataclass, fields

import numpy as np
from numpy.typing import NDArray

from evsyn.effects.arguments import Floats
from evsyn.pooling.between_study import ESTIMATORS, NO_SPREAD
from evsyn.pooling.between_study.dersimonian_laird import moment_estimate
from evsyn.pooling.between_study.result import BetweenStudy, closed_form
from evsyn.pooling.grid import AnalysisGrid
from evsyn.pooling.heterogeneity import i2_from_q, i2_from_tau2, q_p_value, typical_variance
from evsyn.pooling.prediction import prediction_interval
from evsyn.pooling.q_profile import q_profile
from evsyn.pooling.studies import StudyRows, WeightedMean, study_rows, weighted_mean
from evsyn.pooling.summary_interval import INTERVALS

#: Analyses times studies worked on at once, so that a large grid does not fill the memory.
_CELLS_AT_ONCE = 1_000_000


@dataclass(frozen=True, slots=True)
class PooledEstimates:
    """Pooled answers to the analyses of a grid, on the analysis scale.

    Each field has shape ``(analyses,)``. With one study only ``estimate``, ``se``, ``low`` and
    ``high`` (ordinary) exist; with none, nothing does. What does not exist is ``nan``.

    Parameters
    ----------
    estimate, se : ndarray
        Pooled mean and its ordinary (model) standard error.
    low, high : ndarray
        Limits by the interval method.
    tau2, tau2_low, tau2_high : ndarray
        Between-study variance, and its Q-profile limits.
    q, df, p : ndarray
        Cochran's Q about the centre asked for, ``k - 1``, and the upper tail.
    i2, i2_from_q : ndarray
        Share of variance between studies, from ``tau2`` and from ``q``; 0 to 1.
    prediction_low, prediction_high, prediction_df : ndarray
        Prediction interval on ``k - 1`` degrees of freedom.
    converged, floor_active : ndarray of bool
        Whether the estimator reached its tolerance; whether the floor changed the interval.
    """

    estimate: Floats
    se: Floats
    low: Floats
    high: Floats
    tau2: Floats
    tau2_low: Floats
    tau2_high: Floats
    q: Floats
    df: Floats
    p: Floats
    i2: Floats
    i2_from_q: Floats
    prediction_low: Floats
    prediction_high: Floats
    prediction_df: Floats
    converged: NDArray[np.bool_]
    floor_active: NDArray[np.bool_]


def pool_two_step(
    estimate: Floats,
    variance: Floats,
    grid: AnalysisGrid,
    *,
    between: str = "dersimonian_laird",
    interval: str = "ordinary",
    level: float = 0.95,
    tau2_interval: bool = True,
    q_about: Floats | None = None,
) -> PooledEstimates:
    """Answer every analysis of a grid.

    Parameters
    ----------
    estimate, variance : ndarray
        Effects and sampling variances on the analysis scale, shape ``(studies,)``, or
        ``(analyses, studies)`` where each analysis has its own. Masked entries are not read.
    grid : AnalysisGrid
        Which studies enter which analysis.
    between : str
        Name of a between-study estimator, a key of ``ESTIMATORS``, or ``NO_SPREAD`` for the
        common effect, which has no ``tau2``, no share from it and no prediction.
    interval : str
        Name of an interval method, a key of ``INTERVALS``.
    level : float
        Two-sided level of every interval.
    tau2_interval : bool
        Whether to search the Q-profile limits, which cost as much as the rest together.
    q_about : ndarray, optional
        Shape ``(analyses,)``: where Cochran's Q, and DerSimonian and Laird's estimator with it, is
        taken; the inverse-variance mean by default.

    Returns
    -------
    PooledEstimates
        One entry an analysis, in grid order.

    Notes
    -----
    Names and values are taken as checked; the public functions check them.
    """
    shape = grid.mask.shape
    answers = _nothing(shape[0])
    values, spread = np.broadcast_to(estimate, shape), np.broadcast_to(variance, shape)
    single = np.flatnonzero(grid.k == 1)
    if single.size:
        _fill(answers, single, _pool_one(values[single], spread[single], grid.mask[single], level))
    many = np.flatnonzero(grid.k >= 2)
    at_once = max(1, _CELLS_AT_ONCE // max(shape[1], 64))
    for start in range(0, many.size, at_once):
        rows = many[start : start + at_once]
        studies = study_rows(values[rows], spread[rows], grid.mask[rows])
        centre = None if q_about is None else q_about[rows] - studies.centre
        pooled = _pool_many(studies, between, interval, level, centre)
        if between == NO_SPREAD:
            pooled = {name: pooled[name] for name in pooled if name not in _OF_SPREAD}
        elif tau2_interval:
            pooled["tau2_low"], pooled["tau2_high"] = q_profile(studies, level)
        _fill(answers, rows, pooled)
    return answers


#: Answers that exist only where studies may differ in their true value.
_OF_SPREAD = ("tau2", "i2", "prediction_low", "prediction_high", "prediction_df")


def _pool_many(
    studies: StudyRows, between: str, interval: str, level: float, q_about: Floats | None
) -> dict[str, NDArray[np.generic]]:
    k = studies.k
    common = weighted_mean(studies, studies.no_spread)
    q = common.q if q_about is None else _q_about(studies, common, q_about)
    spread = _spread(studies, common, between, q if q_about is not None else None)
    pooled = weighted_mean(studies, spread.tau2)
    centre = studies.centre + pooled.mean
    limits = INTERVALS[interval](pooled, k, level)
    low, high, df = prediction_interval(centre, pooled.se, spread.tau2, k, level=level)
    return {
        "estimate": centre,
        "se": pooled.se,
        "low": centre - limits.half_width,
        "high": centre + limits.half_width,
        "tau2": spread.tau2,
        "q": q,
        "df": k - 1,
        "p": q_p_value(q, k - 1),
        "i2": i2_from_tau2(spread.tau2, typical_variance(common, k)),
        "i2_from_q": i2_from_q(q, k - 1),
        "prediction_low": low,
        "prediction_high": high,
        "prediction_df": df,
        "converged": spread.converged,
        "floor_active": limits.floor_active,
    }


def _q_about(studies: StudyRows, common: WeightedMean, centre: Floats) -> Floats:
    """Return Q about a centre given as a deviation from ``studies.centre``."""
    squares = common.weights * (studies.deviation - centre[:, np.newaxis]) ** 2
    return np.asarray(squares.sum(axis=1), dtype=np.float64)


def _spread(
    studies: StudyRows, common: WeightedMean, between: str, other_q: Floats | None
) -> BetweenStudy:
    if between == NO_SPREAD:
        return closed_form(studies.no_spread)
    if other_q is not None:
        return moment_estimate(other_q, common, studies.k)
    return ESTIMATORS[between](studies)


def _pool_one(
    estimate: Floats, variance: Floats, mask: NDArray[np.bool_], level: float
) -> dict[str, NDArray[np.generic]]:
    rows = study_rows(estimate, variance, mask)
    at = weighted_mean(rows, rows.no_spread)
    half = INTERVALS["ordinary"](at, rows.k, level).half_width
    return {
        "estimate": rows.centre,
        "se": at.se,
        "low": rows.centre - half,
        "high": rows.centre + half,
    }


def _nothing(analyses: int) -> PooledEstimates:
    flags = {"converged": True, "floor_active": False}
    return PooledEstimates(
        **{
            field.name: np.full(analyses, flags.get(field.name, np.nan))
            for field in fields(PooledEstimates)
        }
    )


def _fill(
    answers: PooledEstimates, rows: NDArray[np.intp], found: dict[str, NDArray[np.generic]]
) -> None:
    for name, values in found.items():
        getattr(answers, name)[rows] = values
