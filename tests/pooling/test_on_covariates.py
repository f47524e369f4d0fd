"""An outcome regressed on facts about its studies."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
import statsmodels.api as sm
from scipy.special import expit, logit

from evsyn.cells.covariates import covariates_of
from evsyn.effects.proportions import logit_effects
from evsyn.extraction.load import read_review
from evsyn.pooling.on_covariates import NoRegression, rate_at, regress_on
from evsyn.pooling.regression import RegressionStatus, regress_proportions

DEMO = read_review(Path(__file__).parents[2] / "studies" / "demo")
WORDS = covariates_of(DEMO.plan)


def on(*words, outcome="perforation", review=DEMO):
    return regress_on(review, outcome, [WORDS[word] for word in words])


def test_coefficients_are_per_ten_years_and_per_doubling():
    """Statsmodels WLS on columns built here, with the weights of the fit."""
    found = on("year", "size")
    cells = [row.cell for row in found.gathered.rows]
    effects = logit_effects([c.events for c in cells], [c.total for c in cells])
    x = np.column_stack(
        [np.ones(len(cells)), [c.year / 10 for c in cells], np.log2([c.total for c in cells])]
    )
    fit = found.found.two_step
    other = sm.WLS(effects.estimate, x, 1 / (effects.variance + fit.tau2)).fit()
    assert [one.estimate for one in fit.coefficients[1:]] == pytest.approx(other.params[1:])


def test_rates_lie_on_the_line_of_the_model_quoted():
    found = on("year")
    low, middle, high = found.rates
    slope = found.found.quoted.coefficients[1].estimate
    assert found.found.quoted is found.found.exact
    assert [one.value for one in found.rates] == [1996.0, 2010.0, 2024.0]
    assert logit(high.rate) - logit(low.rate) == pytest.approx(2.8 * slope)
    assert rate_at(found, 2010.0) == middle


def test_limits_of_a_rate_are_those_of_an_intercept_there():
    found = on("year")
    cells = [row.cell for row in found.gathered.rows]
    moved = regress_proportions(
        [c.events for c in cells],
        [c.total for c in cells],
        {"year": [(c.year - 1996) / 10 for c in cells]},
    ).coefficients[0]
    first = found.rates[0]
    assert (first.low, first.high) == pytest.approx(tuple(expit([moved.low, moved.high])), abs=1e-6)


def test_levels_agree_with_the_test_of_difference():
    from evsyn.cells.levels import level_names
    from evsyn.pooling.difference import stratum_difference
    from evsyn.pooling.review import answer_questions, questions

    found = on("intent").found
    answers = answer_questions(DEMO, questions(DEMO.plan, ["perforation"], ["intent"]))
    levels = list(level_names(DEMO.plan.strata["intent"]))
    test = stratum_difference(answers, "perforation", "intent", levels).test
    assert found.exact.p == pytest.approx(test.p, rel=1e-4)
    assert found.exact.coefficients[1].estimate == pytest.approx(
        -test.differences[0].estimate, abs=1e-4
    )
    assert found.robust is not None


def test_studies_and_not_rows_are_counted_for_a_refusal():
    found = on("intent", "device_generation")
    assert found.found.exact.status is RegressionStatus.TOO_FEW_STUDIES
    assert len(found.gathered.rows) > found.found.studies == 21
    assert (found.rates, found.tests) == ((), 0)


def test_refusals_have_their_reasons():
    assert on("year", outcome="reobstruction").reason is NoRegression.BY_PLAN
    alone = on("recruitment")
    assert (alone.reason, alone.alone) == (NoRegression.ONE_LEVEL, (WORDS["recruitment"],))
    nothing = replace(DEMO, studies=DEMO.studies[:0])
    assert on("year", review=nothing).reason is NoRegression.NO_ROWS
