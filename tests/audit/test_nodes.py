"""Nodes hold a density: shares, quantiles and averages of it, and a refusal where none settles."""

import numpy as np
import pytest
from scipy import stats

from evsyn.audit.nodes import nodes, settled, student_log_density
from evsyn.audit.predictive import beta_binomial, student
from evsyn.pooling.answer import Centre


@pytest.mark.parametrize("scale", [0.0, 0.3, 1.0, 4.0])
def test_an_average_known_in_closed_form(scale):
    """The characteristic function of t on 3 degrees of freedom at 1."""
    deviates, weights = nodes(student_log_density(3), scale, 2**11 + 1)
    assert weights.sum() == pytest.approx(1, abs=1e-12)
    expected = np.exp(-np.sqrt(3)) * (1 + np.sqrt(3))
    assert weights @ np.cos(deviates) == pytest.approx(expected, abs=1e-7)


@pytest.mark.parametrize("k", [3, 10, 30])
@pytest.mark.parametrize("share", [0.001, 0.025, 0.3, 0.5, 0.975])
def test_quantiles_and_shares_agree_with_scipy(k, share):
    units = student(Centre(-2.5, 0.12, 0.6), k)
    expected = -2.5 + np.hypot(0.12, 0.6) * stats.t.ppf(share, k - 1)
    assert units.quantile(share) == pytest.approx(expected, abs=5e-5)
    assert units.share_below(expected) == pytest.approx(share, abs=1e-5)


@pytest.mark.parametrize("share", [0.025, 0.5, 0.975])
def test_quantiles_of_a_beta_distribution_agree_with_scipy(share):
    rate = 1 / (1 + np.exp(-beta_binomial(0.074, 0.03).quantile(share)))
    size = 0.97 / 0.03
    assert rate == pytest.approx(stats.beta.ppf(share, 0.074 * size, 0.926 * size), rel=1e-5)


def test_what_does_not_settle_is_not_passed_off_as_an_average():
    def count_the_nodes(deviates, weights):
        return np.array([float(deviates.size)])

    with pytest.raises(ArithmeticError, match="did not settle"):
        settled(student_log_density(9), 1.0, count_the_nodes)
