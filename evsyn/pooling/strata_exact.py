"""The test of difference between levels on the counts themselves."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import fdtrc

from evsyn.effects.arguments import Floats, as_level
from evsyn.pooling.binomial_normal.counts import Counts, read_counts
from evsyn.pooling.binomial_normal.fit import ModelFit, fit_model
from evsyn.pooling.strata_test import Layout, StrataStatus, StrataTest, contrasts, lay_out

METHOD = "exact_likelihood_ratio"


def strata_test_exact(
    events: ArrayLike, total: ArrayLike, levels: Sequence[str], *, level: float = 0.95
) -> StrataTest:
    """Test the difference between levels by the binomial-normal model with one spread.

    Parameters
    ----------
    events, total : array_like of int, shape (k,)
        Patients with the event, and patients, of each study.
    levels : sequence of str, length k
        The level of each study.
    level : float
        Two-sided level of the limits of the differences.

    Returns
    -------
    StrataTest
        Likelihood ratio of a centre a level against one centre, over ``L - 1``, referred to
        F on ``L - 1`` and ``k - L`` degrees of freedom; differences of log-odds with t limits on
        ``k - L``. A level without any event, or with events only, enters the likelihood ratio
        at its limit, which is finite; its differences do not exist.

    Raises
    ------
    ValueError
        If the counts are impossible, there is not one level a study, or ``level`` is not between
        0 and 1.

    Notes
    -----
    The F reference is an approximation chosen because chi-squared rejects too often with few
    studies.
    """
    level = as_level(level)
    counts = read_counts(events, total)
    layout = lay_out(levels, counts.k)
    bare = StrataTest(
        METHOD, StrataStatus.TESTED, layout.levels, layout.k_by_level, layout.left_out, level
    )
    tested = counts.take(layout.chosen)
    if len(layout.levels) < 2:
        return replace(bare, status=StrataStatus.TOO_FEW_LEVELS)
    if tested.one_sided:
        return replace(bare, status=StrataStatus.NO_INFORMATION)
    null = fit_model(tested, np.ones((tested.k, 1)))
    full = _by_level(tested, layout)
    if not (null.converged and full.converged):
        return replace(bare, status=StrataStatus.NOT_CONVERGED)
    statistic = max(0.0, 2 * (full.loglik - null.loglik)) / bare.df1
    return replace(
        bare,
        tau2=full.tau**2,
        statistic=statistic,
        p=float(fdtrc(bare.df1, bare.df2, statistic)),
        differences=contrasts(layout.levels, full.beta, full.covariance, bare.df2, level),
    )


def _by_level(counts: Counts, layout: Layout) -> ModelFit:
    """Fit a centre a level; a level without information adds nothing to the log-likelihood.

    As the centre of a level at 0% goes to minus infinity, its likelihood goes to 1.
    """
    open_levels = np.array([not counts.take(column > 0).one_sided for column in layout.design.T])
    beta = np.full(open_levels.size, np.nan)
    covariance = np.full((open_levels.size, open_levels.size), np.nan)
    if not open_levels.any():
        return ModelFit(beta, covariance, np.nan, 0.0, converged=True, nodes=0)
    design, rows = _only(layout.design, open_levels)
    fit = fit_model(counts.take(rows), design)
    beta[open_levels] = fit.beta
    covariance[np.ix_(open_levels, open_levels)] = fit.covariance
    return replace(fit, beta=beta, covariance=covariance)


def _only(design: Floats, columns: NDArray[np.bool_]) -> tuple[Floats, NDArray[np.bool_]]:
    rows: NDArray[np.bool_] = design[:, columns].sum(axis=1) > 0
    return design[np.ix_(rows, columns)], rows
