"""One line of a plot, pooled: the total or a subgroup, for one typing of the rows or for many."""

from collections.abc import Iterator
from dataclasses import dataclass, fields

import numpy as np
from scipy import special

from evsyn.effects.arguments import Floats
from evsyn.effects.scales import SCALES, Scale
from evsyn.pooling.prediction import prediction_interval
from evsyn.pooling.result import Pooled
from evsyn.pooling.two_step import PooledEstimates

LEVEL = 0.95
#: Scales on which no effect is 0, so that a pooled value can be tested against it.
_TESTED = ("identity", "log")


@dataclass(frozen=True, slots=True)
class Line:
    """What a variant gives for one line; arrays have one entry a typing of the rows.

    Parameters
    ----------
    k : int
        Studies of the line.
    scale : Scale
        The analysis scale, with the way back.
    interval : str
        Name of the interval, which says whether z or t is meant.
    estimate, low, high : ndarray
        Pooled value and limits, as printed.
    on_scale, se_on_scale : ndarray
        Pooled value and the model's standard error on the analysis scale.
    tau2, q, df, p_heterogeneity : ndarray
        As in :class:`evsyn.Pooled`.
    i2, i2_from_tau2 : ndarray
        Share of variance between studies in per cent, from Q and from ``tau2``.
    prediction_low, prediction_high : ndarray
        Prediction interval on ``k - 1`` degrees of freedom.
    """

    k: int
    scale: Scale
    interval: str
    estimate: Floats
    low: Floats
    high: Floats
    on_scale: Floats
    se_on_scale: Floats
    tau2: Floats
    q: Floats
    df: Floats
    p_heterogeneity: Floats
    i2: Floats
    i2_from_tau2: Floats
    prediction_low: Floats
    prediction_high: Floats

    @property
    def normal(self) -> bool:
        """Whether the interval is that of the normal distribution, and not of t on k - 1."""
        return self.interval == "ordinary"

    def numbers(self) -> Iterator[tuple[str, Floats]]:
        """Yield every number that may be printed of the line, by its name in the file."""
        yield from ((field.name, getattr(self, field.name)) for field in fields(self)[3:])
        yield "tau", np.sqrt(self.tau2)
        ends = prediction_interval(
            self.on_scale, self.se_on_scale, self.tau2, np.array(self.k), df="k-2"
        )
        for name, end in zip(("low", "high"), ends[:2], strict=True):
            yield f"prediction_{name}_k_minus_2", self.scale.back(end)
        if self.scale.name in _TESTED:
            # An endless limit, or an interval of no width, has no statistic.
            with np.errstate(divide="ignore", invalid="ignore"):
                width = self.scale.forward(self.high) - self.scale.forward(self.low)
                se = width / 2 / quantile(self.k, normal=self.normal)
                z = np.abs(self.on_scale) / se
            yield "z", z
            yield "p_effect", tail(z, self.k, normal=self.normal)


def quantile(k: int, *, normal: bool) -> float:
    """Return how many standard errors lie from the estimate to a limit."""
    upper = (1 + LEVEL) / 2
    return float(special.ndtri(upper) if normal else special.stdtrit(k - 1, upper))


def tail(statistic: Floats, k: int, *, normal: bool) -> Floats:
    """Return the two-sided P of a statistic, by the normal distribution or by t on k - 1."""
    below = special.ndtr(-statistic) if normal else special.stdtr(k - 1, -statistic)
    return np.asarray(2 * below, dtype=np.float64)


def line_of_record(pool: Pooled) -> Line:
    """Return a pooled record as a line of one typing."""

    def one(value: float) -> Floats:
        return np.array([value])

    return Line(
        pool.k,
        SCALES[pool.scale],
        pool.interval,
        one(pool.estimate),
        one(pool.low),
        one(pool.high),
        one(pool.estimate_on_scale),
        one(pool.se_on_scale),
        one(pool.tau2),
        one(pool.q),
        one(pool.df),
        one(pool.p),
        one(100 * pool.i2_from_q),
        one(100 * pool.i2),
        one(pool.prediction_low),
        one(pool.prediction_high),
    )


def line_of_answers(
    pooled: PooledEstimates, at: slice, k: int, scale: Scale, interval: str
) -> Line:
    """Return some rows of the answers, all to typings of the same ``k`` studies, as a line."""
    return Line(
        k,
        scale,
        interval if k > 1 else "ordinary",
        scale.back(pooled.estimate[at]),
        scale.back(pooled.low[at]),
        scale.back(pooled.high[at]),
        pooled.estimate[at],
        pooled.se[at],
        pooled.tau2[at],
        pooled.q[at],
        pooled.df[at],
        pooled.p[at],
        100 * pooled.i2_from_q[at],
        100 * pooled.i2[at],
        scale.back(pooled.prediction_low[at]),
        scale.back(pooled.prediction_high[at]),
    )
