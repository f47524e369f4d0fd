"""Rows of studies regressed: which model is quoted, and what counts as a study."""

from dataclasses import replace

import numpy as np
import pytest

from evsyn.cells.cell import Cell
from evsyn.effects.proportions import logit_effects
from evsyn.pooling.regressed import regress_cells
from evsyn.pooling.regression import RegressionStatus, regress_estimates, regress_proportions

RNG = np.random.default_rng(11)
TOTAL = RNG.integers(60, 200, 12)
EVENTS = RNG.binomial(TOTAL, 0.3)
ROWS = [
    Cell(f"s{n}", f"s{n}", None, int(x), int(total), "of", "in", frozenset(), ())
    for n, (x, total) in enumerate(zip(EVENTS, TOTAL, strict=True))
]
YEARS = {"year": np.arange(12.0)}


def test_both_models_stand_beside_each_other_and_enough_events_quote_the_two_step():
    found = regress_cells(ROWS, YEARS)
    effects = logit_effects(EVENTS, TOTAL)
    assert found.two_step == regress_estimates(effects.estimate, effects.variance, YEARS)
    assert found.exact == regress_proportions(EVENTS, TOTAL, YEARS)
    assert found.quoted is found.two_step
    assert (found.studies, found.shared, found.robust) == (12, (), None)


def test_few_events_quote_the_exact_model():
    rows = [replace(ROWS[0], events=4), *ROWS[1:]]
    found = regress_cells(rows, YEARS)
    assert found.quoted is found.exact


def test_rows_of_one_study_do_not_pass_for_studies():
    rows = [*ROWS[:9], *(replace(one, study="s0") for one in ROWS[9:])]
    found = regress_cells(rows, YEARS)
    assert found.exact.status is found.two_step.status is RegressionStatus.TOO_FEW_STUDIES
    assert (found.studies, found.shared) == (9, ("s0",))
    robust = regress_cells(rows, YEARS, least=0).robust
    assert robust.clusters == 9
    assert robust.beta == pytest.approx(
        [one.estimate for one in regress_cells(rows, YEARS, least=0).two_step.coefficients]
    )
