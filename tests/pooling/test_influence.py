"""What is left without one study, against fresh pools and weighted regressions."""

import numpy as np
import pytest
import statsmodels.api as sm

from evsyn import pool_estimates
from evsyn.pooling.influence import influence
from tests.pooling.test_printed_classics import BCG, log_odds_ratio, log_risk_ratio


@pytest.mark.parametrize("between", ["dersimonian_laird", "restricted_ml"])
def test_every_row_is_a_fresh_pool(between):
    y, v = log_risk_ratio(BCG)
    found = influence(y, v, between=between, interval="hartung_knapp_floor")
    whole = pool_estimates(y, v, between=between, interval="hartung_knapp_floor")
    assert (found.estimate, found.tau2) == pytest.approx((whole.estimate, whole.tau2))
    assert found.weight == pytest.approx(whole.weights)
    for i in range(y.size):
        rest = pool_estimates(
            np.delete(y, i), np.delete(v, i), between=between, interval="hartung_knapp_floor"
        )
        assert found.without[i] == pytest.approx(rest.estimate)
        assert (found.low[i], found.high[i]) == pytest.approx((rest.low, rest.high))
        assert found.tau2_without[i] == pytest.approx(rest.tau2)
        assert found.q_without[i] == pytest.approx(rest.q)


def test_residuals_and_leverages_are_those_of_a_weighted_regression():
    """Statsmodels: prediction of the study left out by a regression of the others."""
    y, v = log_odds_ratio(BCG)
    found = influence(y, v)
    # Divided by its standard deviation a row weighs one, and leverage is that of least squares.
    scale = np.sqrt(v + found.tau2)
    whole = sm.OLS(y / scale, 1 / scale).fit()
    assert found.weight == pytest.approx(whole.get_influence().hat_matrix_diag)
    for i in range(y.size):
        spread = np.delete(v, i) + found.tau2_without[i]
        rest = sm.WLS(np.delete(y, i), np.ones(y.size - 1), weights=1 / spread).fit()
        mean, error2 = rest.params[0], rest.normalized_cov_params[0, 0]
        out = (y[i] - mean) / np.sqrt(v[i] + found.tau2_without[i] + error2)
        assert found.residual[i] == pytest.approx(out)


def test_without_spread_the_residual_follows_from_the_leverage():
    """Residual of a study left out = ordinary residual / sqrt(variance (1 - leverage))."""
    y, v = np.array([0.1, 0.2, 0.15, 0.12]), np.array([0.4, 0.2, 0.3, 0.9])
    found = influence(y, v)
    assert found.tau2 == 0
    assert found.residual == pytest.approx((y - found.estimate) / np.sqrt(v * (1 - found.weight)))
    assert found.shift == pytest.approx((found.estimate - y) * found.weight / (1 - found.weight))


def test_two_studies_leave_one():
    found = influence([0.0, 1.0], [0.5, 0.5])
    assert found.without.tolist() == [1.0, 0.0]
    assert np.isnan(found.tau2_without).all()
    assert found.residual == pytest.approx([-1.0, 1.0])


@pytest.mark.parametrize(("y", "v"), [([], []), ([1.0], [0.2])])
def test_fewer_than_two_are_refused(y, v):
    with pytest.raises(ValueError, match="two studies or more"):
        influence(y, v)
