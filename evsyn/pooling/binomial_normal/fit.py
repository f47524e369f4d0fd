"""Maximum likelihood for the binomial-normal model, with any design in the linear predictor."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np

from evsyn.effects.arguments import Floats
from evsyn.pooling.binomial_normal.likelihood import CountLikelihood, study_terms
from evsyn.pooling.newton import Summit, climb, is_higher

_NODES = (32, 64, 128, 256, 512)
_SETTLED = 1e-6
_TAU_GRID = (0.05, 0.15, 0.4, 1.0, 2.0, 4.0, 8.0)
_GRID_TOLERANCE = 0.1
_TAU_FLOOR, _TAU_CEILING = 1e-6, 40.0


@dataclass(frozen=True, slots=True)
class ModelFit:
    """A fit of the binomial-normal model.

    Parameters
    ----------
    beta : ndarray, shape (p,)
        Coefficients of the design, log-odds.
    covariance : ndarray, shape (p, p)
        Inverse observed information of ``beta`` and ``tau`` if ``tau`` was estimated above 0,
        of ``beta`` alone if it is 0 or was held; the block of ``beta``.
    tau : float
        Between-study standard deviation, log-odds.
    loglik : float
        Log-likelihood with the binomial coefficients.
    converged : bool
        Whether the climb ended at a maximum and more nodes changed nothing.
    nodes : int
        Quadrature nodes of the last evaluation.
    """

    beta: Floats
    covariance: Floats
    tau: float
    loglik: float
    converged: bool
    nodes: int


def fit_model(
    counts: CountLikelihood, design: Floats, offset: float = 0.0, *, start_tau: float | None = None
) -> ModelFit:
    """Maximise the likelihood over the coefficients and tau at least 0.

    tau = 0 is tried explicitly. Without a start, a coarse search over tau finds every hill
    before the climbs, so that the highest is taken where there are two.

    Parameters
    ----------
    counts : Counts or another CountLikelihood
        Events and totals of k studies, not all 0 and not all full within a design column.
    design : ndarray, shape (k, p)
        Columns of the linear predictor; p may be 0.
    offset : float
        Fixed part of the linear predictor, log-odds.
    start_tau : float, optional
        A value near the maximum, to spare the coarse search.

    Returns
    -------
    ModelFit
        ``converged`` is false if tau grew without limit or the nodes ran out.

    Notes
    -----
    Where every study is at 0% or 100%, and both occur, the likelihood keeps rising as tau grows:
    there is no maximum, and the fit says so.
    """
    flat = fit_at_tau(counts, design, 0.0, offset)
    if start_tau is None:
        starts = _hilltops(counts, design, offset, flat)
    else:
        starts = [(flat.beta, max(start_tau, _TAU_GRID[0]))]
    curved = [_settle(_free(counts, design, offset), beta, tau) for beta, tau in starts]
    best = max(curved, key=lambda fit: fit.loglik, default=flat)
    return best if is_higher(best.loglik, flat.loglik) else flat


def fit_at_tau(
    counts: CountLikelihood,
    design: Floats,
    tau: float,
    offset: float = 0.0,
    *,
    start: Floats | None = None,
) -> ModelFit:
    """Maximise over the coefficients with tau held.

    Parameters
    ----------
    counts, design, offset
        As in :func:`fit_model`.
    tau : float
        The value to hold, log-odds, at least 0.
    start : ndarray, shape (p,), optional
        First coefficients.

    Returns
    -------
    ModelFit
        Covariance from the information of the coefficients alone.
    """
    if start is None:
        start = _first_coefficients(counts, design, offset)
    return _settle(_held(counts, design, offset, tau), start, tau)


_Solver: TypeAlias = Callable[[int, Floats, float], tuple[Summit, Floats, float]]


def _settle(solve: _Solver, beta: Floats, tau: float) -> ModelFit:
    """Double the nodes until coefficients, tau and log-likelihood stand still."""
    summit, beta, tau = solve(_NODES[0], beta, tau)
    nodes, settled = _NODES[0], False
    for more in _NODES[1:]:
        if tau == 0:  # nothing to integrate over
            settled = True
            break
        before, nodes = np.array([*beta, tau, summit.value]), more
        summit, beta, tau = solve(nodes, beta, tau)
        settled = bool(np.abs(np.array([*beta, tau, summit.value]) - before).max() < _SETTLED)
        if settled or not _inside(tau):
            break
    size = beta.size
    covariance = np.full((size, size), np.nan)
    converged = summit.converged and settled
    if converged and size:
        covariance = np.linalg.inv(-summit.hessian)[:size, :size]
    return ModelFit(beta, covariance, tau, summit.value, converged, nodes)


def _inside(tau: float) -> bool:
    return 1.01 * _TAU_FLOOR < tau < 0.99 * _TAU_CEILING


def _free(counts: CountLikelihood, design: Floats, offset: float) -> _Solver:
    """Return a solver over coefficients and log tau; log tau has no edge to fall over."""
    size = design.shape[1]
    low = np.append(np.full(size, -np.inf), np.log(_TAU_FLOOR))
    high = np.append(np.full(size, np.inf), np.log(_TAU_CEILING))

    def solve(nodes: int, beta: Floats, tau: float) -> tuple[Summit, Floats, float]:
        def surface(point: Floats) -> tuple[float, Floats, Floats]:
            spread = float(np.exp(point[-1]))
            value, gradient, hessian = log_likelihood(
                counts, design, offset + design @ point[:-1], spread, nodes
            )
            stretch = np.append(np.ones(size), spread)
            hessian = hessian * np.outer(stretch, stretch)
            hessian[-1, -1] += spread * gradient[-1]
            return value, gradient * stretch, hessian

        summit = climb(surface, np.append(beta, np.log(tau)), low=low, high=high)
        return summit, summit.point[:-1], float(np.exp(summit.point[-1]))

    return solve


def _held(
    counts: CountLikelihood, design: Floats, offset: float, tau: float, *, tolerance: float = 1e-9
) -> _Solver:
    """Return a solver over the coefficients alone."""
    size = design.shape[1]
    free = np.full(size, np.inf)

    def solve(nodes: int, beta: Floats, _tau: float) -> tuple[Summit, Floats, float]:
        def surface(point: Floats) -> tuple[float, Floats, Floats]:
            value, gradient, hessian = log_likelihood(
                counts, design, offset + design @ point, tau, nodes
            )
            return value, gradient[:-1], hessian[:-1, :-1]

        summit = climb(surface, beta, low=-free, high=free, tolerance=tolerance)
        return summit, summit.point, tau

    return solve


def log_likelihood(
    counts: CountLikelihood, design: Floats, eta: Floats, tau: float, nodes: int
) -> tuple[float, Floats, Floats]:
    """Return the log-likelihood with gradient and second derivatives in (beta, tau)."""
    terms = study_terms(counts, eta, tau, nodes)
    size = design.shape[1]
    gradient = np.append(design.T @ terms.by_eta, terms.by_tau.sum())
    hessian = np.empty((size + 1, size + 1))
    hessian[:size, :size] = design.T @ (design * terms.by_eta_eta[:, None])
    hessian[:size, size] = hessian[size, :size] = design.T @ terms.by_eta_tau
    hessian[size, size] = terms.by_tau_tau.sum()
    return float(terms.loglik.sum()), gradient, hessian


def _hilltops(
    counts: CountLikelihood, design: Floats, offset: float, flat: ModelFit
) -> list[tuple[Floats, float]]:
    """Return coefficients and tau near every local maximum above tau = 0."""
    _, _, at_zero = log_likelihood(counts, design, offset + design @ flat.beta, 0.0, _NODES[0])
    beta, heights, betas = flat.beta, [flat.loglik], [flat.beta]
    for tau in _TAU_GRID:
        solve = _held(counts, design, offset, tau, tolerance=_GRID_TOLERANCE)
        summit, beta, _ = solve(_NODES[0], beta, tau)
        heights.append(summit.value)
        betas.append(beta)
    if at_zero[-1, -1] > 0:  # rises from 0: the first hill may stand before the first grid point
        heights[0] = -np.inf
    heights.append(-np.inf)
    return [
        (betas[i], tau)
        for i, tau in enumerate(_TAU_GRID, start=1)
        if heights[i] >= max(heights[i - 1], heights[i + 1])
    ]


def _first_coefficients(counts: CountLikelihood, design: Floats, offset: float) -> Floats:
    """Return coefficients that put every study at the crude value."""
    target = np.full(counts.k, counts.crude - offset)
    first: Floats = np.linalg.lstsq(design, target, rcond=None)[0]
    return first
