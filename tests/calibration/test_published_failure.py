"""Rare events: two-step logit misses the truth far more often than it says, and the model does not.

Source: Lin L, Chu H. Epidemiology 2020;31:713-717 (open at PMC7398826), table 2. For a true rate
of 1%, 30 studies of 100 to 500 patients, it prints for two-step logit a bias of 0.30 to 0.43
percentage points and 15% to 24% coverage of 95% intervals; for the logistic model with a random
intercept a bias of about 0 and 93% to 96%. The figures are quoted at second hand, without the
spreads between studies behind each; a tau of 0 to 0.5 is taken here.
"""

from dataclasses import replace

import numpy as np
import pytest
from scipy import special

from evsyn.calibration import Layout, calibrate
from evsyn.calibration.result import Line
from evsyn.calibration.two_step_lines import every_study
from evsyn.pooling.two_step import pool_two_step

RATE, STUDIES, SMALLEST, LARGEST = 0.01, 30, 100, 500


@pytest.mark.parametrize("tau", [0.0, 0.1, 0.3, 0.5])
def test_with_half_added_to_every_study_the_printed_failure_comes_out(tau):
    """The tool adds half only where a study is at 0% or 100%; print often adds it everywhere."""
    rng = np.random.default_rng(3)
    total = rng.integers(SMALLEST, LARGEST + 1, size=(4000, STUDIES))
    own = special.expit(special.logit(RATE) + tau * rng.standard_normal(total.shape))
    yes = rng.binomial(total, own) + 0.5
    no = total + 1 - yes
    pooled = pool_two_step(
        np.log(yes / no), 1 / yes + 1 / no, every_study(total.shape), tau2_interval=False
    )
    bias = special.expit(pooled.estimate).mean() - RATE
    mu = special.logit(RATE)
    coverage = np.mean((pooled.low <= mu) & (mu <= pooled.high))
    # Simulation errors: under 0.003 points of bias, under 0.7 points of coverage.
    assert 0.0029 < bias < 0.0044
    assert 0.13 < coverage < 0.25


def calibrated(tau, **asked):
    sizes = tuple(np.linspace(SMALLEST, LARGEST, STUDIES).round().astype(int).tolist())
    return calibrate(Layout(sizes, RATE, tau), **asked)


@pytest.mark.parametrize("tau", [0.0, 0.3, 0.5])
def test_the_headline_fails_in_the_same_direction(tau):
    """With half added only where needed, about half the printed bias is left, and it is enough."""
    found = calibrated(tau, replications=2000, exact_replications=20)
    for line in (found.line(Line.HEADLINE), found.line(Line.RESTRICTED_ML)):
        assert 0.0010 < line.bias.value < 0.0044
        assert 0.15 < line.coverage.value < 0.80
        assert line.above.value > 20 * line.below.value


@pytest.mark.slow
@pytest.mark.parametrize("tau", [0.3, 0.5])
def test_the_exact_model_does_not_fail(tau):
    found = calibrated(tau, replications=20, exact_replications=400)
    exact, reading = found.line(Line.EXACT), found.line(Line.READING)
    assert replace(reading, line=Line.EXACT) == exact
    assert abs(exact.bias.value) < 0.0005
    # Printed 93% to 96%; here on t, which is a little wider, and 400 reviews err by about 1 point.
    assert 0.92 < exact.coverage.value < 0.99


def test_the_more_studies_the_surer_the_headline_is_of_a_value_too_high():
    """Bias stays and width shrinks, so coverage falls as studies are added."""
    few, many = (
        calibrate(
            Layout((20, 40, 60, 90, 150) * times, 0.05, 0.6),
            replications=2000,
            exact_replications=20,
        ).line(Line.HEADLINE)
        for times in (1, 6)
    )
    assert few.bias.value > 0
    assert many.bias.value > 0
    leeway = 4 * (few.coverage.error + many.coverage.error)
    assert many.coverage.value + leeway < few.coverage.value < 0.95
