"""Prediction intervals, against print."""

import numpy as np
import pytest
from scipy import special, stats

from evsyn import pool_estimates
from evsyn.pooling.prediction import prediction_interval


def arcsine(percent):
    return np.arcsin(np.sqrt(np.array(percent) / 100))


def from_arcsine(value):
    return 100 * np.sin(np.clip(value, 0, np.pi / 2)) ** 2


def logit(percent):
    return special.logit(np.array(percent) / 100)


def from_logit(value):
    return 100 * special.expit(value)


# Hepatitis C in Nepal, Hepatol Med Policy 2018, doi:10.1186/s41124-018-0039-2, Table 2: pooled
# percentage with limits, tau2, k, and the prediction interval, on k - 2 degrees of freedom. Inputs
# are rounded in print, so three lines are held less closely than their digits, as stated.
NEPAL = [
    (logit, from_logit, (0.68, 0.54, 0.86), 0.2027, 28, (0.26, 1.75), 0.005),
    (arcsine, from_arcsine, (45.17, 26.34, 64.73), 0.1487, 15, (0, 100), 0.5),
    (arcsine, from_arcsine, (11.51, 7.73, 15.87), 0.0018, 6, (3.48, 22.89), 0.5),
    (arcsine, from_arcsine, (1.67, 0, 5.81), 0.0022, 3, (0, 75.38), 2.5),
]


@pytest.mark.parametrize(("there", "back", "line", "tau2", "k", "expected", "margin"), NEPAL)
def test_prediction_interval_agrees_with_print(there, back, line, tau2, k, expected, margin):
    mean, low, high = there(line)
    # A lower limit of 0 is cut, so the half-width is that of the upper side.
    se = (high - mean if line[1] == 0 else (high - low) / 2) / 1.96
    got = prediction_interval(mean, se, tau2, k, df="k-2")
    assert back(got[0]) == pytest.approx(expected[0], abs=margin)
    assert back(got[1]) == pytest.approx(expected[1], abs=margin)


def test_one_degree_of_freedom_more_does_not_match_that_print():
    # The line of k = 6 above needs k - 2; on k - 1 its upper limit is 21.6.
    mean, low, high = arcsine([11.51, 7.73, 15.87])
    got = prediction_interval(mean, (high - low) / 3.92, 0.0018, 6)
    assert from_arcsine(got[1]) == pytest.approx(21.6, abs=0.05)


def test_prediction_interval_of_a_guide_to_random_effects():
    # Riley RD, Higgins JPT, Deeks JJ. BMJ 2011;342:d549: -0.33 (-0.48 to -0.18), k = 10;
    # prediction -0.76 to 0.09 and tau2 near 0.03 from memory, hence the margin.
    low, high, df = prediction_interval(-0.33, 0.30 / 3.92, 0.03, 10, df="k-2")
    assert (low, high) == (pytest.approx(-0.76, abs=0.02), pytest.approx(0.09, abs=0.02))
    assert df == 8


def test_default_is_k_minus_one_on_the_ordinary_standard_error():
    pooled = pool_estimates([0.1, 0.5, 0.9, 2.0], [0.04, 0.1, 0.04, 0.2], interval="hartung_knapp")
    half = stats.t.ppf(0.975, 3) * np.sqrt(pooled.tau2 + pooled.se_on_scale**2)
    assert pooled.prediction_df == 3
    assert pooled.prediction_low == pytest.approx(pooled.estimate - half, rel=1e-12)
    assert pooled.prediction_high == pytest.approx(pooled.estimate + half, rel=1e-12)


@pytest.mark.parametrize(("df", "k"), [("k-1", 1), ("k-2", 2), ("k-1", 0)])
def test_without_degrees_of_freedom_there_is_none(df, k):
    assert np.all(np.isnan(prediction_interval(0.0, 1.0, 0.1, k, df=df)))


def test_unknown_words_and_levels_are_refused():
    with pytest.raises(ValueError, match=r"df 'k-3' is not known; did you mean 'k-"):
        prediction_interval(0.0, 1.0, 0.1, 5, df="k-3")
    with pytest.raises(ValueError, match=r"^level "):
        prediction_interval(0.0, 1.0, 0.1, 5, level=95)
