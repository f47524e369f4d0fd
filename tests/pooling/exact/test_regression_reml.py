"""Random-effects regression: a published example, and statsmodels and scipy as second routes."""

import numpy as np
import pytest
import statsmodels.api as sm
from scipy import optimize

from evsyn.effects.proportions import logit_effects
from evsyn.pooling.functions import pool_estimates
from evsyn.pooling.regression_reml import fit_regression_reml

# 13 trials of BCG against tuberculosis (Colditz GA et al. JAMA 1994;271:698-702): events and
# patients vaccinated, events and patients not vaccinated, absolute latitude.
BCG = np.array(
    [
        (4, 123, 11, 139, 44),
        (6, 306, 29, 303, 55),
        (3, 231, 11, 220, 42),
        (62, 13598, 248, 12867, 52),
        (33, 5069, 47, 5808, 13),
        (180, 1541, 372, 1451, 44),
        (8, 2545, 10, 629, 19),
        (505, 88391, 499, 88391, 13),
        (29, 7499, 45, 7277, 27),
        (17, 1716, 65, 1665, 42),
        (186, 50634, 141, 27338, 18),
        (5, 2498, 3, 2341, 33),
        (27, 16913, 29, 17854, 33),
    ],
    dtype=float,
)


def bcg():
    a, n1, c, n2, latitude = BCG.T
    y, v = np.log(a / n1) - np.log(c / n2), 1 / a - 1 / n1 + 1 / c - 1 / n2
    return y, v, np.column_stack([np.ones(13), latitude])


def restricted_log_likelihood(y, v, x, tau2):
    covariance = np.diag(v + tau2)
    inverse = np.linalg.inv(covariance)
    information = x.T @ inverse @ x
    residual = y - x @ np.linalg.solve(information, x.T @ inverse @ y)
    return -0.5 * (
        np.linalg.slogdet(covariance)[1]
        + np.linalg.slogdet(information)[1]
        + residual @ inverse @ residual
    )


def test_bcg_on_latitude(printed):
    # Log risk ratio on absolute latitude by restricted ML; the example is in many textbooks,
    # these values from memory.
    fit = fit_regression_reml(*bcg())
    assert fit.beta[1] == printed("-0.0291")
    assert np.sqrt(fit.covariance[1, 1]) == printed("0.0072")
    assert fit.tau2 == printed("0.0763")


@pytest.mark.parametrize("seed", range(5))
def test_height_and_place_of_the_maximum(seed):
    rng = np.random.default_rng(seed)
    y, v, x = bcg()
    y = y + 0.5 * rng.standard_normal(13)
    fit = fit_regression_reml(y, v, x)
    found = optimize.minimize_scalar(
        lambda tau2: -restricted_log_likelihood(y, v, x, tau2), bounds=(0, 5), method="bounded"
    )
    assert fit.tau2 == pytest.approx(found.x, abs=1e-4)
    for tau2 in np.linspace(0, 3, 61):
        assert restricted_log_likelihood(y, v, x, tau2) <= -found.fun + 1e-9
    gain = fit.loglik - restricted_log_likelihood(y, v, x, fit.tau2)
    assert gain == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize(
    ("y", "v"),
    [
        ([-0.37, 2.94, 0.44, 0.01, 0.08, -0.15], [1.4078, 0.2281, 0.5546, 0.0005, 0.0165, 0.2269]),
        (
            [-1.48, -1.38, -1.23, 5.27, -1.57, -0.39],
            [0.0213, 0.0036, 2.3957, 2.334, 1.2085, 0.0313],
        ),
    ],
)
def test_higher_of_two_hills(y, v):
    # Found by search: the restricted likelihood has two maxima.
    y, v, x = np.array(y), np.array(v), np.repeat(np.eye(2), 3, axis=0)
    grid = np.concatenate([[0], np.geomspace(1e-5, 100, 400)])
    heights = np.array([restricted_log_likelihood(y, v, x, tau2) for tau2 in grid])
    padded = np.concatenate([[-np.inf], heights, [-np.inf]])
    hills = (padded[1:-1] > padded[:-2]) & (padded[1:-1] > padded[2:])
    assert hills.sum() == 2
    fit = fit_regression_reml(y, v, x)
    assert fit.loglik >= heights.max() - 1e-12
    assert fit.loglik == pytest.approx(heights.max(), abs=1e-3)


def test_coefficients_are_those_of_weighted_least_squares():
    y, v, x = bcg()
    fit = fit_regression_reml(y, v, x)
    wls = sm.WLS(y, x, weights=1 / (v + fit.tau2)).fit()
    assert fit.beta == pytest.approx(wls.params, rel=1e-9)
    assert fit.scale == pytest.approx(wls.scale, rel=1e-9)
    # statsmodels multiplies by its residual scale, which is the Hartung-Knapp factor.
    assert fit.scale * fit.covariance == pytest.approx(wls.cov_params(), rel=1e-8)
    assert fit.covariance_floor == pytest.approx(max(1, wls.scale) * fit.covariance)


def test_an_intercept_alone_is_ordinary_pooling():
    effects = logit_effects([2, 0, 5, 1, 13, 19], [42, 17, 32, 55, 48, 56])
    fit = fit_regression_reml(effects.estimate, effects.variance, np.ones((6, 1)))
    pooled = pool_estimates(effects.estimate, effects.variance, between="restricted_ml")
    assert fit.tau2 == pytest.approx(pooled.tau2, rel=1e-7)
    assert fit.beta[0] == pytest.approx(pooled.estimate, rel=1e-8)


def test_large_effects_with_small_variances_keep_their_digits():
    y, v, x = bcg()
    near = fit_regression_reml(y * 1e-3, v * 1e-6, x)
    far = fit_regression_reml(1e4 + y * 1e-3, v * 1e-6, x)
    assert far.beta[1] == pytest.approx(near.beta[1], rel=1e-6)
    assert far.tau2 == pytest.approx(near.tau2, rel=1e-5)


def test_no_residual_spread():
    x = np.column_stack([np.ones(6), [0, 0, 0, 1, 1, 1]])
    fit = fit_regression_reml(x @ np.array([1.0, 2.0]), np.full(6, 0.1), x)
    assert fit.tau2 == 0
    assert fit.beta == pytest.approx([1, 2])
    assert fit.scale == pytest.approx(0, abs=1e-20)


def test_refusals():
    with pytest.raises(ValueError, match="cannot tell 2 coefficients apart"):
        fit_regression_reml(np.ones(2), np.ones(2), np.eye(2))
    with pytest.raises(ValueError, match="cannot tell"):
        fit_regression_reml(np.ones(4), np.ones(4), np.ones((4, 2)))
