"""Effects of single proportions."""

import numpy as np
import pytest
from statsmodels.genmod.families import Binomial
from statsmodels.genmod.generalized_linear_model import GLM

from evsyn.effects.proportions import PROPORTION_EFFECTS, logit_effects
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
    assert effects.scale.back(effects.estimate) == pytest.approx([2 / 7])


def test_impossible_counts_are_refused():
    with pytest.raises(ValueError, match=r"events must not exceed total; see events\[1\]"):
        logit_effects([1, 3], [2, 2])
