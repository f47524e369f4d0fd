"""The Q-profile interval solves its own two equations."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from evsyn import pool_estimates


def generalised_q(tau2, y, v):
    weights = 1 / (v + tau2)
    mean = np.sum(weights * y) / weights.sum()
    return np.sum(weights * (y - mean) ** 2)


@given(
    st.lists(st.tuples(st.floats(-5, 5), st.floats(-7, 2).map(np.exp)), min_size=2, max_size=9),
    st.sampled_from([0.8, 0.95]),
)
@settings(deadline=None)
def test_limits_solve_their_equations(studies, level):
    y, v = map(np.array, zip(*studies, strict=True))
    pooled = pool_estimates(y, v, level=level)
    df = len(y) - 1
    for limit, chance in ((pooled.tau2_low, (1 + level) / 2), (pooled.tau2_high, (1 - level) / 2)):
        target = stats.chi2.ppf(chance, df)
        got = generalised_q(limit, y, v)
        assert got == pytest.approx(target, rel=1e-6) if limit > 0 else got <= target * (1 + 1e-9)
    assert 0 <= pooled.tau2_low <= pooled.tau2_high


def test_both_limits_are_zero_for_studies_closer_than_chance_allows():
    pooled = pool_estimates([1.0, 1.0, 1.0], [0.1, 0.2, 0.3])
    assert (pooled.tau2_low, pooled.tau2_high) == (0, 0)
