"""The chance of each total of unlike cases, against convolution, mpmath and worked numbers."""

from functools import reduce

import mpmath
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from evsyn.audit.totals import totals


def given_rates(cases, rates):
    return totals(np.array(cases), np.array([rates], dtype=float), np.ones(1))


def convolved(cases, rates):
    each = [stats.binom.pmf(np.arange(n + 1), n, p) for n, p in zip(cases, rates, strict=True)]
    return reduce(np.convolve, each)


TOY = (24, 12, 30, 6), (0.10, 0.08, 0.05, 0.04)


# Own computation, no printed source: 8 or more of 72 at these rates.
def test_worked_tails(printed):
    pmf = given_rates(*TOY)
    expected = np.dot(*TOY)
    assert expected == printed("5.10")
    assert pmf[8:].sum() == printed("0.135")
    assert pmf[9:].sum() + pmf[8] / 2 == printed("0.101")
    # The Poisson tail, which this replaces, says slightly more.
    assert stats.poisson.sf(7, expected) == printed("0.144")
    assert stats.poisson.sf(8, expected) + stats.poisson.pmf(8, expected) / 2 == printed("0.109")


levels = st.lists(
    st.tuples(st.integers(1, 60), st.sampled_from([0.0, 1e-9, 0.01, 0.074, 0.5, 0.93, 1.0])),
    min_size=1,
    max_size=5,
)


@given(levels)
def test_totals_agree_with_convolution(levels):
    cases, rates = zip(*levels, strict=True)
    pmf = given_rates(cases, rates)
    assert pmf == pytest.approx(convolved(cases, rates), abs=1e-12)
    assert (pmf >= 0).all()


@pytest.mark.parametrize(
    ("cases", "rates"),
    [
        ((2500, 2500), (0.1, 0.9)),
        ((5000,), (0.5,)),
        ((4999, 1), (1e-4, 0.5)),
        ((1000, 1500, 2500), (0.999, 0.5, 0.001)),
    ],
)
def test_large_units_keep_every_total_within_reach(cases, rates):
    pmf = given_rates(cases, rates)
    assert pmf.sum() == pytest.approx(1, abs=1e-12)
    assert pmf == pytest.approx(convolved(cases, rates), abs=1e-11)


def test_one_chance_to_thirty_digits():
    """The coefficient of z to the 8 in the product of the generating functions."""
    with mpmath.workdps(30):
        product = [mpmath.mpf(1)]
        for n, rate in zip(*TOY, strict=True):
            p = mpmath.mpf(str(rate))
            for _ in range(n):
                shifted = [mpmath.mpf(0), *product]
                product = [a * (1 - p) + b * p for a, b in zip([*product, 0], shifted, strict=True)]
        assert given_rates(*TOY)[8] == pytest.approx(float(product[8]), rel=1e-12)


def test_nodes_are_averaged_by_their_weights():
    cases, weights = np.array([20, 9]), np.array([0.2, 0.5, 0.3])
    rates = np.array([[0.0, 0.0], [0.1, 0.4], [0.9, 0.2]])
    expected = sum(w * convolved(cases, r) for w, r in zip(weights, rates, strict=True))
    assert totals(cases, rates, weights) == pytest.approx(expected, abs=1e-13)
