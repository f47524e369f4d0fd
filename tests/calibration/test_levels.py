"""Tests between levels of many reviews at once are those of each review by itself."""

import numpy as np
import pytest
from scipy import special

from evsyn.calibration.strata_lines import (
    exact_tests,
    few_events,
    headline_tests,
    level_columns,
    restricted_ml_tests,
)
from evsyn.effects.proportions import logit_effects
from evsyn.pooling.strata_exact import strata_test_exact
from evsyn.pooling.strata_two_step import q_between_levels, strata_test_two_step

LEVELS = (("old", (20, 30, 15, 22)), ("new", (90, 140, 60)), ("later", (40, 45, 50, 55, 300)))
COLUMNS = level_columns(LEVELS)


def drawn(tau, reviews=40):
    rng = np.random.default_rng(5)
    own = special.expit(-2.0 + tau * rng.standard_normal((reviews, COLUMNS.sizes.size)))
    return rng.binomial(COLUMNS.sizes, own).astype(np.int64)


def test_columns_and_their_levels():
    assert COLUMNS.labels == ["old"] * 4 + ["new"] * 3 + ["later"] * 5
    assert COLUMNS.pairs == (("old", "new"), ("old", "later"), ("new", "later"))


@pytest.mark.parametrize("tau", [0.0, 0.3, 1.0])
def test_restricted_ml_is_that_of_the_general_regression(tau):
    events = drawn(tau)
    found = restricted_ml_tests(events, COLUMNS)
    for row, gaps, p in zip(events, found.gaps, found.p, strict=True):
        effects = logit_effects(row, COLUMNS.sizes)
        one = strata_test_two_step(effects.estimate, effects.variance, COLUMNS.labels)
        assert p == pytest.approx(one.p, rel=1e-6)
        assert gaps == pytest.approx([c.estimate for c in one.differences], rel=1e-6, abs=1e-8)


def test_the_headline_is_pooled_level_by_level():
    events = drawn(0.6)
    found = headline_tests(events, COLUMNS, between="dersimonian_laird")
    for row, p in zip(events, found.p, strict=True):
        effects = logit_effects(row, COLUMNS.sizes)
        one = q_between_levels(effects.estimate, effects.variance, COLUMNS.labels)
        assert p == pytest.approx(one.p, rel=1e-10)


def test_the_exact_test_is_the_tools_and_gives_none_without_events():
    events = drawn(0.6, reviews=2)
    events[1] = 0
    found = exact_tests(events, COLUMNS)
    assert found.p[0] == strata_test_exact(events[0], COLUMNS.sizes, COLUMNS.labels).p
    assert np.isnan(found.p[1])
    assert np.isnan(found.gaps[1]).all()


def test_one_level_with_few_events_makes_the_exact_test_the_one_to_quote():
    many = COLUMNS.sizes // 2
    few = many.copy()
    few[0] = 2
    assert few_events(np.array([many, few]), COLUMNS) == [False, True]
