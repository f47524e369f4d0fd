"""Egger's test against print and by two other routes."""

import numpy as np
import pytest
import statsmodels.api as sm
from scipy import stats

from evsyn.pooling.egger import egger, regression
from tests.pooling.test_printed_classics import BCG, log_odds_ratio, log_risk_ratio


def test_it_is_the_line_of_two_general_libraries():
    estimate, variance = log_risk_ratio(BCG)
    found, se = egger(estimate, variance), np.sqrt(variance)
    line = stats.linregress(1 / se, estimate / se)
    assert found.intercept == pytest.approx(line.intercept, rel=1e-12)
    assert found.slope == pytest.approx(line.slope, rel=1e-12)
    assert found.se == pytest.approx(line.intercept_stderr, rel=1e-12)
    # The same line is a regression of estimate on standard error, weighted by one over variance.
    fit = sm.WLS(estimate, sm.add_constant(se), weights=1 / variance).fit()
    assert found.t == pytest.approx(fit.tvalues[1], rel=1e-10)
    assert found.p == pytest.approx(fit.pvalues[1], rel=1e-10)
    assert found.df == fit.df_resid == 11


def test_trials_of_bcg_vaccine(printed):
    # Log odds ratios; computed by an independent route, no printed source.
    found = egger(*log_odds_ratio(BCG))
    assert found.intercept == printed("-2.345341")
    assert found.se == printed("1.556349")
    assert found.p == printed("0.159991")


# Printed P values are held in tests/reproduction, each from the rows of its own plot: 0.103
# (Zegeye A, et al. PLoS ONE 2019;14:e0210422) and 0.30 (Luo X, et al. Front Neurol 2018;9:909).


@pytest.mark.parametrize("k", [0, 1, 2])
def test_fewer_than_three_studies_have_no_line(k):
    assert np.isnan(egger(np.arange(k), np.ones(k)).p)


def test_one_precision_has_no_line():
    assert np.isnan(egger([0.1, 0.2, 0.4, 0.3], [0.5] * 4).t)


def test_order_and_direction():
    estimate, variance = log_risk_ratio(BCG)
    first, back = egger(estimate, variance), egger(estimate[::-1], variance[::-1])
    assert first.p == pytest.approx(back.p, rel=1e-10)
    turned = egger(-estimate, variance)
    assert turned.intercept == pytest.approx(-first.intercept, rel=1e-12)
    assert turned.p == pytest.approx(first.p, rel=1e-12)


def test_many_at_once_equal_one_by_one():
    rng = np.random.default_rng(3)
    estimate, variance = rng.normal(size=(5, 12)), rng.uniform(0.01, 1, size=(5, 12))
    _, _, t, p, _ = regression(estimate, variance)
    alone = [egger(*row) for row in zip(estimate, variance, strict=True)]
    assert t == pytest.approx([one.t for one in alone], rel=1e-12)
    assert p == pytest.approx([one.p for one in alone], rel=1e-12)


def test_what_cannot_be_an_estimate_is_refused():
    with pytest.raises(ValueError, match="variance"):
        egger([0.1, 0.2, 0.3], [1.0, 0.0, 1.0])
