"""Regression on several characteristics: a printed example, general libraries, and promises."""

import numpy as np
import pytest
import statsmodels.api as sm
from scipy.optimize import minimize
from scipy.special import expit

from evsyn import pool_estimates
from evsyn.pooling.regression import (
    RegressionStatus,
    regress_estimates,
    regress_proportions,
)
from evsyn.pooling.strata_exact import strata_test_exact
from tests.pooling.test_printed_classics import BCG, log_odds_ratio

# Degrees of latitude of the thirteen BCG trials, as listed with their counts.
LATITUDE = [44, 55, 42, 52, 13, 44, 19, 13, 27, 42, 18, 33, 33]


def test_bcg_on_latitude_by_ml(printed):
    """van Houwelingen HC, Arends LR, Stijnen T. Stat Med 2002;21:589-624 (from memory)."""
    found = regress_estimates(*log_odds_ratio(BCG), {"latitude": LATITUDE}, restricted=False)
    intercept, latitude = found.coefficients
    assert intercept.estimate == printed("0.371")
    assert intercept.se == printed("0.106")
    assert latitude.estimate == printed("-0.0327")
    assert latitude.se == printed("0.0034")
    assert found.tau2 == printed("0.004")
    assert found.method == "ml_ordinary"


def made(seed=3, k=30, spread=0.4):
    rng = np.random.default_rng(seed)
    year, old = rng.integers(0, 20, k).astype(float), (rng.random(k) < 0.4).astype(float)
    v = rng.uniform(0.05, 0.6, k)
    y = -2 - 0.03 * year + 0.5 * old + rng.normal(0, np.sqrt(v + spread**2))
    return y, v, {"year": year, "old": old}


def test_the_general_library_agrees_given_the_spread():
    """Statsmodels WLS: its scale is the Hartung-Knapp factor."""
    y, v, columns = made()
    found = regress_estimates(y, v, columns)
    x = np.column_stack([np.ones(30), *columns.values()])
    other = sm.WLS(y, x, weights=1 / (v + found.tau2)).fit()
    factor = np.sqrt(max(1.0, other.scale) / other.scale)
    assert [one.estimate for one in found.coefficients] == pytest.approx(other.params)
    assert [one.se for one in found.coefficients] == pytest.approx(other.bse * factor)
    assert [one.t for one in found.coefficients] == pytest.approx(other.tvalues / factor)
    assert found.df == other.df_resid
    if factor == 1:  # else the floor holds, and the P is larger
        assert [one.p for one in found.coefficients] == pytest.approx(other.pvalues)
    together = other.f_test(np.eye(3)[1:])
    assert found.statistic == pytest.approx(float(together.fvalue) / factor**2)


def test_variance_inflation_is_that_of_the_general_library():
    from statsmodels.stats.outliers_influence import variance_inflation_factor

    y, v, columns = made()
    columns["near"] = columns["year"] + 0.2 * np.arange(30) % 3
    found = regress_estimates(y, v, columns, least=5)
    x = np.column_stack([np.ones(30), *columns.values()])
    told = [one.inflation for one in found.coefficients[1:]]
    assert told == pytest.approx([variance_inflation_factor(x, place) for place in (1, 2, 3)])
    assert np.isnan(found.coefficients[0].inflation)


def test_the_share_of_spread_taken_away():
    y, v, columns = made(spread=0.8)
    found = regress_estimates(y, v, columns)
    alone = pool_estimates(y, v, between="restricted_ml")
    assert found.tau2_alone == pytest.approx(alone.tau2, rel=1e-5)
    assert found.r2 == pytest.approx(max(0, 1 - found.tau2 / alone.tau2), rel=1e-4)


COUNTS = (
    np.array([1, 3, 0, 5, 2, 9, 4, 1, 0, 6, 2, 3]),
    np.array([20, 45, 18, 60, 33, 80, 70, 25, 12, 51, 40, 39]),
)
YEARS = np.array([1995, 1998, 2000, 2001, 2003, 2004, 2008, 2010, 2011, 2015, 2016, 2020.0])


def test_counts_against_a_likelihood_written_anew():
    """The same likelihood by Gauss-Hermite quadrature and scipy's own minimiser."""
    events, total = COUNTS
    found = regress_proportions(events, total, {"year": YEARS})
    z, w = np.polynomial.hermite_e.hermegauss(80)
    x = (YEARS - 2005) / 10

    def loss(point):
        a, b, tau = point[0], point[1], np.exp(point[2])
        p = expit((a + b * x)[:, None] + tau * z)
        chance = p ** events[:, None] * (1 - p) ** (total - events)[:, None]
        return -np.log(chance @ w / np.sqrt(2 * np.pi)).sum()

    best = minimize(loss, [-2.5, 0, -0.5], method="Nelder-Mead",
                    options={"xatol": 1e-9, "fatol": 1e-12, "maxiter": 9000})  # fmt: skip
    intercept, slope = found.coefficients
    assert slope.estimate * 10 == pytest.approx(best.x[1], abs=2e-4)
    assert intercept.estimate + 2005 * slope.estimate == pytest.approx(best.x[0], abs=2e-4)
    assert found.tau2 == pytest.approx(np.exp(2 * best.x[2]), abs=2e-3)


def test_without_spread_it_is_logistic_regression():
    """Statsmodels GLM; counts that differ less than chance."""
    total = np.full(12, 50)
    events = np.round(50 * expit(-2 + 0.05 * np.arange(12))).astype(int)
    found = regress_proportions(events, total, {"year": np.arange(12.0)})
    both, binomial = np.column_stack([events, total - events]), sm.families.Binomial()
    model = sm.GLM(both, sm.add_constant(np.arange(12.0)), family=binomial).fit()
    assert found.tau2 == 0
    assert [one.estimate for one in found.coefficients] == pytest.approx(model.params, rel=1e-6)
    assert [one.se for one in found.coefficients] == pytest.approx(model.bse, rel=1e-5)
    null = sm.GLM(both, np.ones((12, 1)), family=binomial).fit()
    assert found.statistic == pytest.approx(null.deviance - model.deviance, rel=1e-5)


def test_one_column_of_two_levels_is_the_test_of_strata():
    events, total = COUNTS
    late = (YEARS > 2005).astype(float)
    found = regress_proportions(events, total, {"late": late})
    strata = strata_test_exact(events, total, ["late" if one else "early" for one in late])
    (difference,) = strata.differences
    assert found.p == pytest.approx(strata.p, rel=1e-6)
    assert abs(found.coefficients[1].estimate) == pytest.approx(abs(difference.estimate), rel=1e-5)
    assert found.coefficients[1].se == pytest.approx(difference.se, rel=1e-5)


def test_a_far_origin_changes_nothing():
    events, total = COUNTS
    far = regress_proportions(events, total, {"year": YEARS})
    near = regress_proportions(events, total, {"year": YEARS - 2005})
    assert far.coefficients[1].estimate == pytest.approx(near.coefficients[1].estimate, rel=1e-7)
    assert far.coefficients[1].se == pytest.approx(near.coefficients[1].se, rel=1e-7)
    assert far.p == pytest.approx(near.p, rel=1e-7)


@pytest.mark.parametrize("origin", [2e3, 1e6, 1e9])
def test_a_far_origin_of_effects(origin):
    y, v, columns = made()
    near = regress_estimates(y, v, columns)
    far = regress_estimates(y, v, {**columns, "year": columns["year"] + origin})
    assert far.status is RegressionStatus.FITTED
    assert far.coefficients[1].estimate == pytest.approx(near.coefficients[1].estimate, rel=1e-6)
    assert far.coefficients[1].se == pytest.approx(near.coefficients[1].se, rel=1e-6)
    assert far.p == pytest.approx(near.p, rel=1e-5)


NEARLY = 1e-6 * np.array([1.0, -1, 0] * 4)


@pytest.mark.parametrize("regress", ["effects", "counts"])
@pytest.mark.parametrize(
    ("columns", "status", "tied"),
    [
        ({"a": YEARS, "b": YEARS + NEARLY}, "collinear", ("a", "b")),
        ({"a": YEARS, "b": YEARS + NEARLY / 1e3}, "collinear", ("a", "b")),
        ({"a": YEARS, "b": 2 * YEARS + 3}, "collinear", ("a", "b")),
        ({"a": np.ones(12)}, "collinear", ("a",)),
        ({"a": YEARS, "b": YEARS**2 - 4e6, "c": np.arange(12.0)}, "fitted", ()),
    ],
)
def test_columns_that_tell_the_same(regress, columns, status, tied):
    if regress == "effects":
        found = regress_estimates(COUNTS[0] / 10, np.ones(12), columns, least=2)
    else:
        found = regress_proportions(*COUNTS, columns, least=2)
    assert (found.status, found.tied) == (RegressionStatus(status), tied)


def test_ten_studies_a_column():
    nine = regress_proportions(COUNTS[0][:9], COUNTS[1][:9], {"year": YEARS[:9]})
    assert (nine.status, nine.coefficients) == (RegressionStatus.TOO_FEW_STUDIES, ())
    ten = regress_proportions(COUNTS[0][:10], COUNTS[1][:10], {"year": YEARS[:10]})
    assert ten.status is RegressionStatus.FITTED


def test_no_event_at_all_tells_nothing():
    found = regress_proportions(np.zeros(12, int), COUNTS[1], {"year": YEARS})
    assert found.status is RegressionStatus.NO_INFORMATION


@pytest.mark.parametrize(
    ("columns", "message"),
    [({}, "one characteristic"), ({"year": [1, 2]}, "one entry a study; got 2 for 12")],
)
def test_what_cannot_be_used(columns, message):
    with pytest.raises(ValueError, match=message):
        regress_proportions(*COUNTS, columns)
