"""The vectorised core, where it does more than the public functions show."""

import numpy as np
import pytest

from evsyn import pool_estimates
from evsyn.pooling import two_step
from evsyn.pooling.grid import AnalysisGrid, join, leave_one_out, overall
from evsyn.pooling.two_step import pool_two_step


def test_each_analysis_may_have_its_own_estimates():
    rng = np.random.default_rng(3)
    y, v = rng.normal(size=(4, 6)), rng.uniform(0.1, 1, size=(4, 6))
    grid = AnalysisGrid(tuple("abcd"), rng.random((4, 6)) < 0.8)
    answers = pool_two_step(y, v, grid, between="restricted_ml")
    for row, mask in enumerate(grid.mask):
        alone = pool_estimates(y[row, mask], v[row, mask], between="restricted_ml")
        assert answers.estimate[row] == pytest.approx(alone.estimate, rel=1e-9)
        assert answers.tau2[row] == pytest.approx(alone.tau2, rel=1e-9)


def test_masked_entries_are_not_read():
    y, v = np.array([0.1, np.nan, 0.9, 0.4]), np.array([0.1, np.nan, 0.2, 0.3])
    grid = AnalysisGrid(("a",), np.array([[True, False, True, True]]))
    answers = pool_two_step(y, v, grid)
    alone = pool_estimates([0.1, 0.9, 0.4], [0.1, 0.2, 0.3])
    assert answers.estimate[0] == pytest.approx(alone.estimate, rel=1e-12)
    assert answers.q[0] == pytest.approx(alone.q, rel=1e-12)


def test_work_in_blocks_changes_nothing(monkeypatch):
    rng = np.random.default_rng(4)
    y, v = rng.normal(size=9), rng.uniform(0.1, 1, size=9)
    grid = join(overall(9), leave_one_out([str(i) for i in range(9)]))
    whole = pool_two_step(y, v, grid, between="restricted_ml")
    monkeypatch.setattr(two_step, "_CELLS_AT_ONCE", 200)
    blocks = pool_two_step(y, v, grid, between="restricted_ml")
    assert blocks.tau2 == pytest.approx(whole.tau2, rel=1e-9)
    assert blocks.tau2_high == pytest.approx(whole.tau2_high, rel=1e-9)
    assert blocks.low == pytest.approx(whole.low, rel=1e-9)


def test_limits_of_the_spread_can_be_left_out():
    y, v = np.array([0.1, 0.9, 0.4]), np.array([0.1, 0.2, 0.3])
    answers = pool_two_step(y, v, overall(3), tau2_interval=False)
    assert np.isnan(answers.tau2_low[0])
    assert np.isnan(answers.tau2_high[0])
    assert np.isfinite(answers.prediction_low[0])
