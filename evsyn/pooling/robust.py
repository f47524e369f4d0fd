"""Cluster-robust variance of a weighted regression: several rows of one study are not strangers."""

from collections.abc import Hashable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import stdtr, stdtrit

from evsyn.effects.arguments import Floats, as_estimates, as_level

#: Below so many degrees of freedom the t reference itself is not to be trusted.
LEAST_DF = 4.0
#: What a fit leaves of a direction of a cluster's rows, as a share, below which it leaves nothing.
_NOTHING = 1e-10


@dataclass(frozen=True, slots=True)
class Robust:
    """Coefficients with cluster-robust standard errors; every array has shape ``(p,)``.

    Parameters
    ----------
    beta, se, df, t, p, low, high : ndarray
        Coefficient, robust standard error, Satterthwaite degrees of freedom, t, two-sided P,
        and t limits. ``p`` is ``nan`` where ``df`` is below 4; all but ``beta`` are ``nan`` where
        one cluster alone tells the coefficient, since nothing then shows how clusters differ.
    covariance : ndarray, shape (p, p)
        Robust covariance.
    clusters : int
        Number of clusters.
    """

    beta: Floats
    se: Floats
    df: Floats
    t: Floats
    p: Floats
    low: Floats
    high: Floats
    covariance: Floats
    clusters: int


def robust_regression(
    estimate: ArrayLike,
    variance: ArrayLike,
    design: ArrayLike,
    clusters: Sequence[Hashable],
    *,
    tau2: float = 0.0,
    level: float = 0.95,
) -> Robust:
    """Regress by inverse variance, with bias-reduced cluster-robust standard errors.

    Parameters
    ----------
    estimate, variance : array_like, shape (rows,)
        Effects and sampling variances.
    design : array_like, shape (rows, p)
        Columns of the regression, one of ones where an intercept is wanted.
    clusters : sequence, length rows
        The study of each row.
    tau2 : float
        Between-study variance in the weights ``1 / (variance + tau2)``.
    level : float
        Two-sided level of the limits.

    Returns
    -------
    Robust
        With working covariance ``diag(variance + tau2)``.

    Raises
    ------
    ValueError
        If there are fewer than two clusters, the design has not full rank, or shapes differ.

    References
    ----------
    Tipton E. Psychol Methods 2015;20:375-393 (small-sample degrees of freedom). Pustejovsky JE,
    Tipton E. J Bus Econ Stat 2018;36:672-683 (adjustment matrices), from memory.
    """
    level = as_level(level)
    y, spread = as_estimates(estimate, variance)
    x = np.asarray(design, dtype=np.float64)
    labels = list(clusters)
    if x.ndim != 2 or x.shape[0] != y.size or len(labels) != y.size:
        raise ValueError("design and clusters must hold one row an effect")
    members = [
        np.flatnonzero([label == name for label in labels]) for name in dict.fromkeys(labels)
    ]
    if len(members) < 2 or np.linalg.matrix_rank(x) < x.shape[1]:
        raise ValueError(
            f"{len(members)} clusters cannot tell {x.shape[1]} coefficients apart from their noise"
        )
    # Divide by the working standard deviation, so that every row weighs the same.
    scale = np.sqrt(spread + tau2)
    y, x = y / scale, x / scale[:, None]
    bread: Floats = np.asarray(np.linalg.inv(x.T @ x), dtype=np.float64)
    beta = bread @ x.T @ y
    residual = y - x @ beta
    left = np.eye(y.size) - x @ bread @ x.T
    scores, pulls = [], []
    alone = np.zeros(beta.size, dtype=np.bool_)
    for rows in members:
        alone |= _told_by(np.asarray(x[rows]), bread)
        carried = bread @ x[rows].T @ _adjustment(left[np.ix_(rows, rows)], scale[rows] ** 2)
        scores.append(carried @ residual[rows])
        pulls.append(carried @ left[rows])
    covariance = np.einsum("ci,cj->ij", scores, scores)
    covariance[alone, :] = covariance[:, alone] = np.nan
    df = np.array(
        [
            np.nan if alone[j] else _satterthwaite(np.array([pull[j] for pull in pulls]))
            for j in range(beta.size)
        ]
    )
    se = np.sqrt(np.diag(covariance))
    half = stdtrit(df, 0.5 + level / 2) * se
    t = beta / se
    p = np.where(df < LEAST_DF, np.nan, 2 * stdtr(df, -np.abs(t)))
    return Robust(beta, se, df, t, p, beta - half, beta + half, covariance, len(members))


def _told_by(x: Floats, bread: Floats) -> NDArray[np.bool_]:
    """Say which coefficients the rows of one cluster alone tell: without them, no fit has one."""
    root = np.linalg.cholesky(bread)
    share, directions = np.linalg.eigh(root.T @ x.T @ x @ root)
    lost = root @ directions[:, 1 - share < _NOTHING]
    size = np.sqrt((lost**2).sum(axis=1) / np.diag(bread))
    return np.asarray(size > 1e-6, dtype=np.bool_)


def _adjustment(left: Floats, variance: Floats) -> Floats:
    """Return the matrix that frees a cluster's residuals of what the fit took from them.

    It is symmetric on the scale of the effects, as the authors define it; here it acts on rows
    divided by their working standard deviation. Where the fit leaves nothing of a direction of
    the rows, the generalised inverse takes its place; such directions are counted on rows of equal
    weight, since on the scale of the effects a small variance looks like nothing.
    """
    values, vectors = np.linalg.eigh(variance[:, None] * left * variance)
    nothing = int((np.linalg.eigvalsh(left) < _NOTHING).sum())
    scaled = np.zeros(values.size)
    scaled[nothing:] = 1 / np.sqrt(values[nothing:])
    return np.asarray((vectors * scaled) @ vectors.T * variance, dtype=np.float64)


def _satterthwaite(pulls: Floats) -> float:
    """Return the degrees of freedom of a sum of squares of correlated normal variables."""
    products = pulls @ pulls.T
    return float(np.trace(products) ** 2 / (products**2).sum())
