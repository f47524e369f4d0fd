"""Profile limits, each confirmed by maximising a likelihood of scipy at the limit."""

import numpy as np
import pytest
from scipy import optimize, stats

from evsyn.pooling.binomial_normal import (
    fit_binomial_normal,
    largest_tau,
    profile_binomial_normal,
)

STENT_OVER = ([2, 0, 5, 1, 13, 19], [42, 17, 32, 55, 48, 56])
RARE = ([0, 1, 0, 3, 2, 0, 5], [20, 45, 33, 120, 60, 15, 210])
HIGH = ([20, 44, 33, 115, 60], [20, 45, 33, 120, 60])


def profile_of_tau(by_scipy, counts, tau, near):
    found = optimize.minimize_scalar(
        lambda mu: -by_scipy(*counts, mu, tau), bracket=(near - 1, near + 1), options={"xtol": 1e-7}
    )
    return -found.fun


def profile_of_mu(by_scipy, counts, mu, most):
    found = optimize.minimize_scalar(
        lambda tau: -by_scipy(*counts, mu, tau), bounds=(0, most), method="bounded"
    )
    return -min(found.fun, -by_scipy(*counts, mu, 0.0))


@pytest.mark.parametrize("level", [0.95, 0.8])
@pytest.mark.parametrize("counts", [STENT_OVER, RARE, HIGH])
def test_limits_lie_where_the_likelihood_has_fallen_to_the_cut(by_scipy, counts, level):
    fit = fit_binomial_normal(*counts)
    profile = profile_binomial_normal(*counts, fit, level=level)
    cut = stats.chi2.ppf(level, 1)
    for mu in (profile.mu_low, profile.mu_high):
        height = profile_of_mu(by_scipy, counts, mu, 6.0)
        assert 2 * (fit.loglik - height) == pytest.approx(cut, abs=2e-4)
    assert profile.mu_low < fit.mu < profile.mu_high
    height = profile_of_tau(by_scipy, counts, profile.tau_high, fit.mu)
    assert 2 * (fit.loglik - height) == pytest.approx(cut, abs=1e-4)
    height = profile_of_tau(by_scipy, counts, profile.tau_low, fit.mu)
    if profile.tau_low == 0:
        assert 2 * (fit.loglik - height) < cut
    else:
        assert 2 * (fit.loglik - height) == pytest.approx(cut, abs=1e-4)
    assert profile.tau_low <= fit.tau < profile.tau_high


@pytest.mark.parametrize("counts", [STENT_OVER, RARE, HIGH])
def test_largest_tau_lies_half_a_unit_down(by_scipy, counts):
    fit = fit_binomial_normal(*counts)
    tau = largest_tau(*counts)
    assert tau > fit.tau
    assert fit.loglik - profile_of_tau(by_scipy, counts, tau, fit.mu) == pytest.approx(
        0.5, abs=1e-4
    )
    assert profile_binomial_normal(*counts, fit).tau_hi == pytest.approx(tau, abs=1e-9)


def test_zero_is_inside_or_outside_by_its_deviance():
    inside = profile_binomial_normal(*HIGH, fit_binomial_normal(*HIGH))
    outside = profile_binomial_normal(*STENT_OVER, fit_binomial_normal(*STENT_OVER))
    assert inside.tau_low == 0
    assert outside.tau_low > 0


def test_complement_mirrors_the_limits():
    events, total = map(np.array, STENT_OVER)
    one = profile_binomial_normal(events, total, fit_binomial_normal(events, total))
    rest = total - events
    other = profile_binomial_normal(rest, total, fit_binomial_normal(rest, total))
    assert -other.mu_high == pytest.approx(one.mu_low, abs=1e-6)
    assert -other.mu_low == pytest.approx(one.mu_high, abs=1e-6)
    assert other.tau_high == pytest.approx(one.tau_high, abs=1e-6)


def test_spread_of_single_patients_cannot_be_bounded():
    # With totals of 1 only the mean proportion enters the likelihood: it is flat in tau.
    counts = ([1, 0, 0], [1, 1, 1])
    profile = profile_binomial_normal(*counts, fit_binomial_normal(*counts))
    assert profile.tau_low == 0
    assert profile.tau_high == np.inf


def test_refusals():
    endless = ([0, 5], [5, 5])
    with pytest.raises(ValueError, match="did not converge"):
        profile_binomial_normal(*endless, fit_binomial_normal(*endless))
    with pytest.raises(ValueError, match="did not converge"):
        largest_tau(*endless)
    with pytest.raises(ValueError, match="the fit is of 7 studies"):
        profile_binomial_normal(*HIGH, fit_binomial_normal(*RARE))
    with pytest.raises(ValueError, match="drop"):
        largest_tau(*HIGH, drop=0)
    with pytest.raises(ValueError, match="level"):
        profile_binomial_normal(*HIGH, fit_binomial_normal(*HIGH), level=95)
