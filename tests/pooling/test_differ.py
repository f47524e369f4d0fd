"""Levels compared by every route: what is quoted, and lines robust to studies at two levels."""

from pathlib import Path

import numpy as np
import pytest
import statsmodels.api as sm

from evsyn.cells.levels import level_names
from evsyn.effects.proportions import logit_effects
from evsyn.extraction.load import read_review
from evsyn.pooling.differ import stratum_asked
from evsyn.pooling.difference import NoTest, cells_tested, stratum_difference
from evsyn.pooling.review import answer_questions, questions
from evsyn.pooling.robust import robust_regression

DEMO = read_review(Path(__file__).parents[2] / "studies" / "demo")


def asked(outcome, stratum):
    answers = answer_questions(DEMO, questions(DEMO.plan, [outcome], [stratum]))
    levels = list(level_names(DEMO.plan.strata[stratum]))
    return stratum_asked(answers, outcome, stratum, levels), answers, levels


def test_the_test_quoted_is_the_one_a_pool_prints():
    found, answers, levels = asked("perforation", "intent")
    assert found.difference == stratum_difference(answers, "perforation", "intent", levels)
    assert found.difference.test == found.exact
    assert found.two_step.method == "restricted_ml_hartung_knapp_floor"
    assert found.tests == 1


def test_each_pair_beyond_two_levels_counts_as_a_test():
    found, *_ = asked("perforation", "device_generation")
    assert len(found.difference.test.differences) == 3
    assert found.tests == 4


def test_robust_pairs_are_weighted_least_squares_with_an_indicator_a_level():
    """Point values by statsmodels WLS; variance and freedom as a contrast of level means."""
    found, answers, levels = asked("perforation", "device_generation")
    tested = cells_tested(answers, "perforation", "device_generation", levels)
    rows = [(name, cell) for name, cells in tested.items() for cell in cells]
    effects = logit_effects([c.events for _, c in rows], [c.total for _, c in rows])
    names = list(tested)
    design = np.array([[float(name == one) for one in names] for name, _ in rows])
    weights = 1 / (effects.variance + found.two_step.tau2)
    means = dict(zip(names, sm.WLS(effects.estimate, design, weights).fit().params, strict=True))
    whole = robust_regression(
        effects.estimate,
        effects.variance,
        design,
        [cell.study for _, cell in rows],
        tau2=found.two_step.tau2,
    )
    assert len(found.robust) == 3
    for pair in found.robust:
        assert pair.estimate == pytest.approx(means[pair.first] - means[pair.second])
        apart = np.array([(one == pair.first) - float(one == pair.second) for one in names])
        se = float(np.sqrt(apart @ whole.covariance @ apart))
        t = (pair.high - pair.low) / 2 / se
        # The half-width is a t quantile of the freedom that is printed.
        from scipy.stats import t as student

        assert t == pytest.approx(student.ppf(0.975, pair.df))
        assert np.isnan(pair.p) == (pair.df < 4)


def test_without_a_study_at_two_levels_no_robust_line_stands():
    found, *_ = asked("perforation", "era")
    assert found.difference.shared == () == found.robust


def test_what_the_plan_forbids_is_not_tested():
    found, *_ = asked("reobstruction", "intent")
    assert found.difference.reason is NoTest.BY_PLAN
    assert (found.tests, found.exact, found.robust) == (0, None, ())
