"""Inputs at the edge of sense: a right answer, never a warning."""

import numpy as np
import pytest
from mpmath import mp, mpf

from evsyn import pool_estimates, pool_proportions
from evsyn.pooling.between_study import ESTIMATORS
from evsyn.pooling.summary_interval import INTERVALS

each_estimator = pytest.mark.parametrize("between", ESTIMATORS)


@mp.workdps(400)
def dersimonian_laird_in_many_digits(y, v):
    y, v = [mpf(float(value)) for value in y], [mpf(float(value)) for value in v]
    w = [1 / value for value in v]
    mean = sum(a * b for a, b in zip(w, y, strict=True)) / sum(w)
    q = sum(a * (b - mean) ** 2 for a, b in zip(w, y, strict=True))
    c = sum(w) - sum(a * a for a in w) / sum(w)
    tau2 = max((q - len(y) + 1) / c, mpf(0))
    w = [1 / (value + tau2) for value in v]
    pooled = sum(a * b for a, b in zip(w, y, strict=True)) / sum(w)
    return float(q), float(tau2), float(pooled), float(1 / mp.sqrt(sum(w)))


EXTREME = {
    "effects near ten thousand": ([1e4, 1e4 + 3e-4, 1e4 - 2e-4], [1e-8, 2e-8, 1e-8]),
    "one study far sharper": ([1.1, -0.7, 0.3], [1.0, 2.0, 1e-16]),
    "sharper still, and far off": ([0.0, 1.0, 1e6], [1.0, 1.0, 1e-20]),
    "sharper than the digits of the rest": ([0.1, 0.2, 0.3], [1.0, 2.0, 1e-40]),
    "huge variances": ([1.0, 5e24, -4e24], [1e50, 2e49, 1e48]),
    "tiny variances": ([0.0, 3e-25, 1e-25], [1e-50, 2e-50, 3e-51]),
    "tiny and huge": ([0.0, 3.0, 1e20], [1e-40, 1e-3, 1e40]),
    "at the bounds": ([-1e60, 1e60, 0.0], [1e-60, 1e60, 1.0]),
}


@pytest.mark.parametrize("name", EXTREME)
def test_dersimonian_laird_keeps_its_digits(name):
    y, v = EXTREME[name]
    q, tau2, estimate, se = dersimonian_laird_in_many_digits(y, v)
    pooled = pool_estimates(y, v)
    # Q at the first line is limited by the last digit of estimates near ten thousand.
    assert pooled.q == pytest.approx(q, rel=1e-7)
    assert pooled.tau2 == pytest.approx(tau2, rel=1e-7)
    assert pooled.estimate == pytest.approx(estimate, rel=1e-9, abs=1e-12 * se)
    assert pooled.se_on_scale == pytest.approx(se, rel=1e-7)


@each_estimator
@pytest.mark.parametrize("interval", INTERVALS)
@pytest.mark.parametrize("name", EXTREME)
def test_every_estimator_answers(between, interval, name):
    pooled = pool_estimates(*EXTREME[name], between=between, interval=interval)
    assert pooled.status == "pooled"
    assert np.all(np.isfinite([pooled.low, pooled.high, pooled.tau2_high, pooled.prediction_high]))
    assert pooled.low <= pooled.estimate <= pooled.high


@each_estimator
def test_a_set_of_tiny_variances_is_the_usual_one_in_another_unit(between):
    y, v = np.array([0.1, 0.9, -0.4, 1.8]), np.array([0.04, 0.2, 0.1, 0.05])
    usual = pool_estimates(y, v, between=between)
    for unit in (1e-25, 1e25):
        scaled = pool_estimates(y * unit, v * unit**2, between=between)
        assert scaled.tau2 == pytest.approx(usual.tau2 * unit**2, rel=1e-9)
        assert scaled.tau2_high == pytest.approx(usual.tau2_high * unit**2, rel=1e-9)
        assert scaled.low == pytest.approx(usual.low * unit, rel=1e-9)


@each_estimator
def test_one_study_of_a_million_among_small_ones(between):
    pooled = pool_proportions([50_000, 1, 2, 0], [1_000_000, 12, 20, 9], between=between)
    assert 0.04 < pooled.estimate < 0.2
    assert pooled.status == "pooled"
    assert pooled.weights[0] == max(pooled.weights)


@pytest.mark.parametrize("between", [name for name in ESTIMATORS if name != "sidik_jonkman"])
def test_studies_of_one_patient(between):
    # Each logit is -+ log 3 with variance 8/3: equal precision, sample variance (log 3)^2 * 4/3,
    # below 8/3, so there is no spread and the mean is the middle. (Sidik and Jonkman's estimator
    # is above zero wherever studies differ.)
    pooled = pool_proportions([0, 1, 0, 1], [1, 1, 1, 1], between=between)
    assert pooled.estimate == pytest.approx(0.5)
    assert pooled.tau2 == 0
    assert pooled.q == pytest.approx(4 * np.log(3) ** 2 / (8 / 3))


@pytest.mark.parametrize("between", ["dersimonian_laird", "restricted_ml"])
def test_ten_thousand_studies_recover_what_they_were_drawn_from(between):
    rng = np.random.default_rng(5)
    v = rng.uniform(0.05, 0.5, 10_000)
    y = rng.normal(-1.0, np.sqrt(0.25 + v))
    pooled = pool_estimates(y, v, between=between)
    # Four standard errors: of the mean, and of the variance (about sqrt(2 / k) of the total).
    assert pooled.estimate == pytest.approx(-1.0, abs=4 * pooled.se_on_scale)
    assert pooled.tau2 == pytest.approx(0.25, abs=4 * 0.6 * np.sqrt(2 / 10_000))
    assert pooled.tau2_low < pooled.tau2 < pooled.tau2_high
    assert pooled.k == len(pooled.weights) == 10_000


def test_billions_of_patients_keep_an_exact_interval():
    pooled = pool_proportions([3], [1_000_000_000_000])
    # Poisson limits for a count of 3 (Garwood F. Biometrika 1936;28:437-442): 0.6187 and 8.7673.
    assert 1e12 * pooled.low == pytest.approx(0.6187, abs=5e-5)
    assert 1e12 * pooled.high == pytest.approx(8.7673, abs=5e-5)
