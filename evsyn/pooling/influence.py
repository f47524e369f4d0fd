"""How much one study carries a two-step pool: its weight, its pull, and what is left without it."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from evsyn.effects.arguments import Floats, as_estimates, as_level
from evsyn.pooling.grid import join, leave_one_out, overall
from evsyn.pooling.options import checked_between
from evsyn.pooling.two_step import pool_two_step


@dataclass(frozen=True, slots=True)
class Influence:
    """What each study does to a pool; every array has shape ``(k,)``, on the analysis scale.

    Parameters
    ----------
    estimate, tau2 : float
        Pooled mean and between-study variance of all studies.
    weight : ndarray
        Share of weight in the pool, 0 to 1: the leverage of the study on the pooled mean.
    without : ndarray
        Pooled mean without the study.
    shift : ndarray
        That mean less the mean of all.
    low, high : ndarray
        Its limits.
    tau2_without, q_without : ndarray
        Between-study variance and Cochran's Q without the study.
    residual : ndarray
        The study less the mean of the others, in standard errors of that difference: the square
        root of its own variance, the spread without it, and the squared error of that mean.
    """

    estimate: float
    tau2: float
    weight: Floats
    without: Floats
    shift: Floats
    low: Floats
    high: Floats
    tau2_without: Floats
    q_without: Floats
    residual: Floats


def influence(
    estimate: ArrayLike,
    variance: ArrayLike,
    *,
    between: str = "dersimonian_laird",
    interval: str = "ordinary",
    level: float = 0.95,
) -> Influence:
    """Pool all studies, and all but each, in one call of the engine.

    Parameters
    ----------
    estimate, variance : array_like, shape (k,)
        Study effects and sampling variances; two studies at least.
    between, interval : str
        Between-study estimator and interval method.
    level : float
        Two-sided level of the limits.

    Returns
    -------
    Influence
        With two studies, what is left is one study: it has limits and no spread, and the residual
        takes the spread as 0.

    Raises
    ------
    ValueError
        If an effect cannot be pooled, there are fewer than two, or an option is not known.

    References
    ----------
    Viechtbauer W, Cheung MW-L. Res Synth Methods 2010;1:112-125, section 3, from memory.
    """
    level = as_level(level)
    checked_between("random", between, interval, level, models=("random",))
    values, spread = as_estimates(estimate, variance)
    if values.size < 2:
        raise ValueError(f"influence needs two studies or more; got {values.size}")
    names = tuple(map(str, range(values.size)))
    grid = join(overall(values.size), leave_one_out(names))
    pooled = pool_two_step(
        values, spread, grid, between=between, interval=interval, level=level, tau2_interval=False
    )
    tau2_without = pooled.tau2[1:]
    held = np.nan_to_num(tau2_without)
    weight = 1 / (spread + pooled.tau2[0])
    mean, without = float(pooled.estimate[0]), pooled.estimate[1:]
    error = np.sqrt(spread + held + pooled.se[1:] ** 2)
    return Influence(
        estimate=mean,
        tau2=float(pooled.tau2[0]),
        weight=weight / weight.sum(),
        without=without,
        shift=without - mean,
        low=pooled.low[1:],
        high=pooled.high[1:],
        tau2_without=tau2_without,
        q_without=pooled.q[1:],
        residual=(values - without) / error,
    )
