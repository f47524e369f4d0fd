"""Tests of difference between levels on study effects: the two-step forms."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike
from scipy.special import chdtrc, fdtrc

from evsyn.effects.arguments import as_estimates, as_level
from evsyn.pooling.grid import by_level
from evsyn.pooling.regression_reml import fit_regression_reml
from evsyn.pooling.strata_test import StrataStatus, StrataTest, contrasts, lay_out
from evsyn.pooling.two_step import pool_two_step

METHOD = "restricted_ml_hartung_knapp_floor"


@dataclass(frozen=True, slots=True)
class QBetween:
    """Cochran's Q of pooled level estimates about their mean.

    Parameters
    ----------
    q : float
        The statistic.
    df : int
        Levels less 1.
    p : float
        Upper tail of chi-squared.
    """

    q: float
    df: int
    p: float


def strata_test_two_step(
    estimate: ArrayLike, variance: ArrayLike, levels: Sequence[str], *, level: float = 0.95
) -> StrataTest:
    """Test the difference between levels by restricted ML with one between-study variance.

    Parameters
    ----------
    estimate, variance : array_like, shape (k,)
        Study effects and sampling variances.
    levels : sequence of str, length k
        The level of each study.
    level : float
        Two-sided level of the limits of the differences.

    Returns
    -------
    StrataTest
        Wald statistic over ``L - 1`` on F with ``L - 1`` and ``k - L`` degrees of freedom; its
        covariance is Hartung-Knapp's, never below the ordinary one.

    Raises
    ------
    ValueError
        If an effect or variance cannot be pooled, there is not one level a study, or ``level`` is
        not between 0 and 1.

    References
    ----------
    Knapp G, Hartung J. Stat Med 2003;22:2693-2710.
    """
    level = as_level(level)
    values, spread = as_estimates(estimate, variance)
    layout = lay_out(levels, values.size)
    bare = StrataTest(
        METHOD, StrataStatus.TESTED, layout.levels, layout.k_by_level, layout.left_out, level
    )
    if len(layout.levels) < 2:
        return replace(bare, status=StrataStatus.TOO_FEW_LEVELS)
    fit = fit_regression_reml(values[layout.chosen], spread[layout.chosen], layout.design)
    covariance = fit.covariance_floor
    against_first = np.hstack([-np.ones((bare.df1, 1)), np.eye(bare.df1)])
    gap = against_first @ fit.beta
    size = against_first @ covariance @ against_first.T
    statistic = float(gap @ np.linalg.solve(size, gap)) / bare.df1
    return replace(
        bare,
        tau2=fit.tau2,
        statistic=statistic,
        p=float(fdtrc(bare.df1, bare.df2, statistic)),
        differences=contrasts(layout.levels, fit.beta, covariance, bare.df2, level),
    )


def q_between_levels(estimate: ArrayLike, variance: ArrayLike, levels: Sequence[str]) -> QBetween:
    """Pool each level by itself (DerSimonian-Laird) and compare the pooled estimates.

    Parameters
    ----------
    estimate, variance : array_like, shape (k,)
        Study effects and sampling variances.
    levels : sequence of str, length k
        The level of each study; every level is taken, however few its studies.

    Returns
    -------
    QBetween

    Raises
    ------
    ValueError
        If an effect or variance cannot be pooled or there is not one level a study.

    References
    ----------
    Cochrane Handbook for Systematic Reviews of Interventions 5.1.0, section 9.6.3.1, from memory.
    """
    values, spread = as_estimates(estimate, variance)
    if len(levels) != values.size:
        raise ValueError(f"levels must hold one entry a study; got {len(levels)}")
    pooled = pool_two_step(values, spread, by_level(levels), tau2_interval=False)
    return q_between(pooled.estimate, pooled.se)


def q_between(estimate: ArrayLike, se: ArrayLike) -> QBetween:
    """Compare pooled estimates of levels.

    Parameters
    ----------
    estimate, se : array_like, shape (levels,)
        Pooled estimates and their standard errors.

    Returns
    -------
    QBetween

    Raises
    ------
    ValueError
        If they are not of equal length, not finite, or a standard error is not above 0.
    """
    values, spread = as_estimates(estimate, np.square(np.asarray(se, dtype=np.float64)))
    weight = 1 / spread
    mean = float(weight @ values / weight.sum())
    q = float(weight @ (values - mean) ** 2)
    df = values.size - 1
    return QBetween(q, df, float(chdtrc(df, q)) if df else 1.0)
