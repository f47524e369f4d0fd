"""The band of a funnel: the range of ordinary new units at each number of cases."""

import numpy as np
import pytest
from scipy import integrate, special, stats

from evsyn.audit.predictive import student
from evsyn.audit.range_by_size import range_by_size
from evsyn.pooling.answer import Centre

MU, SE, TAU, K = float(special.logit(0.074)), 0.12, 0.6, 30
WIDTH = float(np.hypot(SE, TAU))


def tail(x: int, n: int, *, above: bool) -> float:
    """Chance of x or more, or of x or fewer, by scipy's quadrature over Student's t."""
    chance = (
        (lambda p: stats.binom.sf(x - 1, n, p)) if above else (lambda p: stats.binom.cdf(x, n, p))
    )
    return integrate.quad(
        lambda t: stats.t.pdf(t, K - 1) * chance(special.expit(MU + WIDTH * t)), -40, 40, limit=200
    )[0]


@pytest.mark.parametrize("n", [20, 100])
def test_at_most_a_fortieth_lies_beyond_either_edge_and_more_one_count_nearer(n):
    found = range_by_size(student(Centre(MU, SE, TAU), K), np.array([n]))
    low, high = int(found.low[0]), int(found.high[0])
    assert tail(high + 1, n, above=True) <= 0.025 < tail(high, n, above=True)
    if low:
        assert tail(low - 1, n, above=False) <= 0.025
    assert tail(low, n, above=False) > 0.025


def test_edges_rise_with_the_number_of_cases():
    found = range_by_size(student(Centre(MU, SE, TAU), K), np.arange(1, 80))
    assert np.all(np.diff(found.high) >= 0)
    assert np.all(np.diff(found.low) >= 0)
    assert found.low[0] == 0
    assert found.high[0] == 1
