"""The root search and the climb against scipy.optimize."""

import math

import numpy as np
import pytest
from scipy import optimize

from evsyn.pooling.newton import climb, is_higher
from evsyn.pooling.root import bracketed_root

FUNCTIONS = [
    (lambda x: x**3 - 2, 0.0, 5.0),
    (lambda x: math.exp(x) - 1e6, -50.0, 50.0),
    (lambda x: math.atan(x - 3), -100.0, 4.0),
    (lambda x: math.tanh(20 * (x - 1)), -3.0, 3.5),
    (lambda x: 1 - x * x, 5.0, 0.0),
]


@pytest.mark.parametrize(("function", "a", "b"), FUNCTIONS)
def test_root_is_that_of_brent(function, a, b):
    expected = optimize.brentq(function, min(a, b), max(a, b), xtol=1e-14)
    assert bracketed_root(function, a, b) == pytest.approx(expected, abs=1e-8)


def test_root_at_an_end():
    assert bracketed_root(lambda x: x, 0.0, 1.0) == 0
    assert bracketed_root(lambda x: x - 1, 0.0, 1.0) == pytest.approx(1, abs=1e-9)


def test_few_calls():
    calls = []
    bracketed_root(lambda x: calls.append(x) or math.exp(x) - 3, 0.0, 4.0)
    assert len(calls) < 15


def test_same_sign_is_refused():
    with pytest.raises(ValueError, match="same sign"):
        bracketed_root(lambda x: x * x + 1, -1.0, 1.0)


def valley(point):
    """The negative of Rosenbrock's valley: curved, with saddle-like bends on the way."""
    x, y = point
    value = -((1 - x) ** 2 + 100 * (y - x * x) ** 2)
    gradient = np.array([2 * (1 - x) + 400 * x * (y - x * x), -200 * (y - x * x)])
    hessian = np.array([[-2 + 400 * y - 1200 * x * x, 400 * x], [400 * x, -200.0]])
    return value, gradient, hessian


FREE = np.full(2, np.inf)


@pytest.mark.parametrize("start", [(-1.2, 1.0), (0.0, 0.0), (2.0, -3.0)])
def test_climb_reaches_the_top_of_a_curved_valley(start):
    summit = climb(valley, np.array(start), low=-FREE, high=FREE)
    expected = optimize.minimize(lambda p: -valley(p)[0], start, tol=1e-12).x
    assert summit.converged
    assert summit.point == pytest.approx(expected, abs=1e-4)
    assert summit.point == pytest.approx([1, 1], abs=1e-8)


def test_climb_that_meets_the_box_says_so():
    summit = climb(valley, np.array([-1.2, 1.0]), low=-FREE, high=np.array([0.5, 5.0]))
    assert not summit.converged
    assert summit.point[0] == 0.5


def test_climb_without_a_top_says_so():
    def slope(point):
        return float(point[0]), np.ones(1), np.zeros((1, 1))

    summit = climb(slope, np.zeros(1), low=-FREE[:1], high=FREE[:1])
    assert not summit.converged


def test_higher_means_by_more_than_rounding():
    assert is_higher(-100.0, -100.1)
    assert not is_higher(-100.0, -100.0 - 1e-13)
