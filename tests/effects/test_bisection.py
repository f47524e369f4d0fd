"""Bisection finds the crossing, and says when there is none."""

import numpy as np
import pytest

from evsyn.effects.bisection import bisect_decreasing


def test_finds_many_crossings_at_once():
    square = np.array([2.0, 9.0, 1e-20, 1e20])
    root, found = bisect_decreasing(lambda t: square - t**2, np.zeros(4), square + 1)
    assert root == pytest.approx(np.sqrt(square), rel=1e-14)
    assert found.all()


def test_finds_a_root_thirty_powers_of_ten_below_the_bracket():
    root, found = bisect_decreasing(lambda t: 1e-30 - t, np.zeros(1), np.ones(1))
    assert root[0] == pytest.approx(1e-30, rel=1e-12)
    assert found[0]


@pytest.mark.parametrize("shift", [-5.0, 5.0])
def test_says_so_where_the_bracket_holds_no_crossing(shift):
    _, found = bisect_decreasing(lambda t: 1 + shift - t, np.zeros(1), np.full(1, 2.0))
    assert not found[0]


def test_no_problem_is_no_trouble():
    root, found = bisect_decreasing(lambda t: 1 - t, np.zeros(0), np.ones(0))
    assert root.size == found.size == 0
