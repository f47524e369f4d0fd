"""Random-effects regression of study effects on study characteristics, by restricted ML or ML."""

from dataclasses import dataclass

import numpy as np

from evsyn.effects.arguments import Floats
from evsyn.pooling.root import bracketed_root

#: Step of the search grid in the natural logarithm: finer than any turn of the likelihood.
_LOG_STEP = 0.25


@dataclass(frozen=True, slots=True)
class RegressionReml:
    """A random-effects regression.

    Parameters
    ----------
    beta : ndarray, shape (p,)
        Coefficients, on the scale of the effects.
    covariance : ndarray, shape (p, p)
        Their ordinary covariance, ``inv(X' W X)``.
    scale : float
        Hartung-Knapp factor: weighted residual sum of squares over ``k - p``.
    tau2 : float
        Residual between-study variance.
    loglik : float
        Log-likelihood, restricted or full, up to a constant of the data.
    df : int
        ``k - p``.
    """

    beta: Floats
    covariance: Floats
    scale: float
    tau2: float
    loglik: float
    df: int

    @property
    def covariance_floor(self) -> Floats:
        """Covariance by Hartung-Knapp, never smaller than the ordinary one."""
        return max(1.0, self.scale) * self.covariance


def fit_regression_reml(
    estimate: Floats, variance: Floats, design: Floats, *, restricted: bool = True
) -> RegressionReml:
    """Fit by restricted maximum likelihood, or by maximum likelihood.

    Parameters
    ----------
    estimate, variance : ndarray, shape (k,)
        Study effects and sampling variances.
    design : ndarray, shape (k, p)
        Characteristics, with a column of ones where an intercept is wanted; full rank, p < k.
    restricted : bool
        Whether the likelihood is the restricted one.

    Returns
    -------
    RegressionReml
        At the highest maximum of the likelihood, a spread of 0 included.

    Raises
    ------
    ValueError
        If the design has not full rank or leaves no degree of freedom.

    References
    ----------
    Berkey CS et al. Stat Med 1995;14:395-411 (model); Knapp G, Hartung J. Stat Med
    2003;22:2693-2710 (covariance factor).
    """
    k, p = design.shape
    if p >= k or np.linalg.matrix_rank(design) < p:
        raise ValueError(f"{k} studies cannot tell {p} coefficients apart")

    def at(tau2: float) -> RegressionReml:
        return _at(estimate, variance, design, tau2, restricted)

    def slope(tau2: float) -> float:
        return _slope(estimate, variance, design, tau2, restricted)

    grid = _grid(estimate, variance, design)
    slopes = [slope(tau2) for tau2 in grid]
    peaks = [
        bracketed_root(slope, low, high, tolerance=1e-12)
        for low, high, left, right in zip(grid, grid[1:], slopes, slopes[1:], strict=False)
        if left > 0 >= right
    ]
    return max((at(tau2) for tau2 in (0.0, *peaks)), key=lambda fit: fit.loglik)


def _at(
    y: Floats, variance: Floats, design: Floats, tau2: float, restricted: bool
) -> RegressionReml:
    """Return the weighted regression at one between-study variance."""
    weight = 1 / (variance + tau2)
    information = design.T @ (design * weight[:, None])
    covariance = np.asarray(np.linalg.inv(information), dtype=np.float64)
    beta = covariance @ (design.T @ (weight * y))
    squares = float(weight @ (y - design @ beta) ** 2)
    df = y.size - beta.size
    determinant = float(np.linalg.slogdet(information)[1]) if restricted else 0.0
    loglik = -0.5 * (squares + determinant - float(np.log(weight).sum()))
    return RegressionReml(beta, covariance, squares / df, tau2, loglik, df)


def _slope(y: Floats, variance: Floats, design: Floats, tau2: float, restricted: bool) -> float:
    """Return the derivative of the log-likelihood in tau2."""
    fit = _at(y, variance, design, tau2, restricted)
    weight = 1 / (variance + tau2)
    pull = weight.sum()
    if restricted:
        pull -= np.trace(fit.covariance @ (design.T @ (design * weight[:, None] ** 2)))
    return float(0.5 * (((weight * (y - design @ fit.beta)) ** 2).sum() - pull))


def _grid(y: Floats, variance: Floats, design: Floats) -> list[float]:
    """Return trial values rising from 0 to above every maximum.

    Past the largest sampling variance and twice the residual variance the slope is negative.
    """
    residual = y - design @ np.linalg.lstsq(design, y, rcond=None)[0]
    least = 1e-3 * float(variance.min())
    seen = float(residual @ residual) / (design.shape[0] - design.shape[1])
    most = 4 * max(float(variance.max()), seen)
    points = int(np.ceil(np.log(most / least) / _LOG_STEP)) + 1
    return [0.0, *np.geomspace(least, most, points).tolist()]
