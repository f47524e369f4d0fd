"""Effects of single proportions."""

import numpy as np
import pytest
from statsmodels.genmod.families import Binomial
from statsmodels.genmod.generalized_linear_model import GLM

from evsyn.effects.proportions import (
    PROPORTION_EFFECTS,
    arcsine_effects,
    freeman_tukey_effects,
    freeman_tukey_mean_effects,
    logit_effects,
    raw_effects,
)
from evsyn.effects.scales import SCALES


def test_effect_and_variance_are_those_of_a_logistic_regression():
    for x, n in [(2, 42), (5, 32), (120, 121)]:
        fit = GLM(np.arange(n) < x, np.ones(n), family=Binomial()).fit(tol=1e-13)
        effects = logit_effects([x], [n])
        assert effects.estimate[0] == pytest.approx(fit.params[0], rel=1e-6)
        assert effects.variance[0] == pytest.approx(fit.bse[0] ** 2, rel=1e-6)


def test_half_is_added_only_at_zero_and_all():
    # Cochrane Handbook 5.1.0, section 9.2.2.2: half to each cell, so the denominator grows by 1.
    effects = logit_effects([0, 1, 19, 20], [20, 20, 20, 20])
    assert effects.corrected.tolist() == [True, False, False, True]
    assert np.exp(effects.estimate) == pytest.approx([0.5 / 20.5, 1 / 19, 19, 20.5 / 0.5])
    assert effects.variance == pytest.approx(
        [1 / 0.5 + 1 / 20.5, 1 + 1 / 19, 1 + 1 / 19, 1 / 0.5 + 1 / 20.5]
    )


def test_events_and_non_events_swapped_change_the_sign_alone():
    x, n = np.array([0, 3, 7, 9]), np.array([9, 9, 9, 9])
    one, other = logit_effects(x, n), logit_effects(n - x, n)
    assert np.array_equal(one.estimate, -other.estimate)
    assert np.array_equal(one.variance, other.variance)


def test_one_study_of_one_and_one_of_a_million():
    effects = logit_effects([0, 1, 500_000], [1, 1, 1_000_000])
    assert effects.estimate == pytest.approx([-np.log(3), np.log(3), 0])
    assert effects.variance == pytest.approx([8 / 3, 8 / 3, 4e-6])


@pytest.mark.parametrize("name", PROPORTION_EFFECTS)
def test_effects_carry_the_scale_they_are_registered_under(name):
    effects = PROPORTION_EFFECTS[name]([2], [7])
    assert effects.scale is SCALES[name]
    one = effects.scale_of(np.array([True]))
    assert one.name == name
    assert one.back(effects.estimate) == pytest.approx([2 / 7])
    assert one.forward(np.array([2 / 7])) == pytest.approx(effects.estimate)


# Computed by an independent route, no printed source: events, total, sum, mean, way back.
DOUBLE_ARCSINES = [
    (0, 10, "0.306277", "0.153139", "0.000000"),
    (1, 29, "0.444761", "0.222381", "0.034483"),
]


@pytest.mark.parametrize(("x", "n", "total", "mean", "back"), DOUBLE_ARCSINES)
def test_double_arcsine_and_its_way_back(printed, x, n, total, mean, back):
    effects, halved = freeman_tukey_effects([x], [n]), freeman_tukey_mean_effects([x], [n])
    assert effects.estimate[0] == printed(total)
    assert halved.estimate[0] == printed(mean)
    assert effects.variance[0] == 1 / (n + 0.5)
    assert halved.variance[0] == pytest.approx(1 / (4 * n + 2), rel=1e-12)
    for found in (effects, halved):
        assert found.scale_of(np.array([True])).back(found.estimate)[0] == printed(back)


def test_the_way_back_is_at_the_harmonic_mean_of_sizes_that_enter():
    effects = freeman_tukey_effects([3, 5, 7], [10, 40, 900])
    angle = np.array([1.1])
    expected = freeman_tukey_effects([1], [16]).scale_of(np.array([True])).back(angle)
    # 2 / (1/10 + 1/40) = 16.
    assert effects.scale_of(np.array([True, True, False])).back(angle) == pytest.approx(expected)
    assert effects.scale_of(np.array([True, True, True])).back(angle) != pytest.approx(expected)


@pytest.mark.parametrize("effects", [freeman_tukey_effects, freeman_tukey_mean_effects])
@pytest.mark.parametrize("n", [1, 7, 300, 10**12])
def test_angles_beyond_those_of_0_and_1_go_to_the_nearer_end(effects, n):
    at_ends = effects([0, n], [n, n])
    scale = at_ends.scale_of(np.array([True, True]))
    beyond = at_ends.estimate + np.array([-0.2, 0.2])
    assert scale.back(at_ends.estimate) == pytest.approx([0, 1], abs=1e-12)
    assert scale.back(beyond) == pytest.approx([0, 1], abs=1e-12)
    assert np.isnan(scale.back(np.array([np.nan]))[0])


def test_arcsine_and_raw_formulas():
    arcsine, raw = arcsine_effects([3], [12]), raw_effects([3], [12])
    # The sine of 30 degrees is one half.
    assert arcsine.estimate[0] == pytest.approx(np.pi / 6)
    assert arcsine.variance[0] == pytest.approx(1 / 48)
    assert (raw.estimate[0], raw.variance[0]) == (0.25, pytest.approx(0.25 * 0.75 / 12))
    assert arcsine.scale.back(np.array([-0.1, 0.2, 2.0])) == pytest.approx([0, np.sin(0.2) ** 2, 1])
    assert raw.scale.back(np.array([-0.1, 0.2, 2.0])) == pytest.approx([0, 0.2, 1])


@pytest.mark.parametrize("x", [0, 9])
def test_raw_refuses_a_study_at_an_end(x):
    with pytest.raises(ValueError, match=r"events must not be 0% or 100% .* see events\[1\]"):
        raw_effects([2, x], [9, 9])


def test_impossible_counts_are_refused():
    with pytest.raises(ValueError, match=r"events must not exceed total; see events\[1\]"):
        logit_effects([1, 3], [2, 2])
