"""Where every possible review can be listed, the simulation agrees with the list.

Three studies of eight patients and no spread: 729 reviews, each with its binomial chance. The
pooled value of each is formed here anew, from the formulas of DerSimonian R, Laird N. Control Clin
Trials 1986;7:177-188, with half added in studies at 0% or 100%.
"""

from itertools import product

import numpy as np
import pytest
from scipy import special, stats

from evsyn.calibration import Layout, calibrate
from evsyn.calibration.result import Line
from evsyn.calibration.units import true_chances

K, N, RATE = 3, 8, 0.2
#: Monte Carlo standard errors a right simulation may be away: beyond 4 once in 16,000.
FAR = 4


@pytest.fixture(scope="module")
def listed():
    """Return chances, log-odds and limits of every review."""
    events = np.array(list(product(range(N + 1), repeat=K)))
    chance = stats.binom.pmf(events, N, RATE).prod(axis=1)
    half = 0.5 * ((events == 0) | (events == N))
    y = np.log((events + half) / (N - events + half))
    v = 1 / (events + half) + 1 / (N - events + half)
    w = 1 / v
    fixed = (w * y).sum(1) / w.sum(1)
    q = (w * (y - fixed[:, None]) ** 2).sum(1)
    tau2 = np.maximum(0, (q - (K - 1)) / (w.sum(1) - (w**2).sum(1) / w.sum(1)))
    w = 1 / (v + tau2[:, None])
    mean, se = (w * y).sum(1) / w.sum(1), 1 / np.sqrt(w.sum(1))
    one_sided = np.isin(events.sum(axis=1), [0, K * N])
    return chance, mean, se, one_sided


@pytest.fixture(scope="module")
def simulated():
    layout = Layout((N,) * K, RATE, 0.0)
    found = calibrate(layout, replications=40_000, exact_replications=20, seed=3)
    return found.line(Line.HEADLINE)


def test_reviews_without_an_answer_are_those_without_an_event_or_with_events_only(simulated):
    expected = (1 - RATE) ** (K * N) + RATE ** (K * N)
    assert expected == pytest.approx(0.0047, abs=5e-5)
    near(simulated.no_answer, expected)


def test_coverage_width_and_bias_are_those_of_the_list(listed, simulated):
    chance, mean, se, one_sided = listed
    chance = np.where(one_sided, 0, chance) / chance[~one_sided].sum()
    mu = special.logit(RATE)
    low, high = mean - 1.959964 * se, mean + 1.959964 * se
    near(simulated.coverage, chance @ ((low <= mu) & (mu <= high)))
    near(simulated.above, chance @ (low > mu))
    near(simulated.below, chance @ (high < mu))
    near(simulated.bias_log_odds, chance @ (mean - mu))
    near(simulated.bias, chance @ (special.expit(mean) - RATE))
    near(simulated.width, chance @ (special.expit(high) - special.expit(low)))
    # The error that is told is that of one review, over the root of their number.
    spread = np.sqrt(chance @ (mean - chance @ mean) ** 2 / simulated.reviews)
    assert simulated.bias_log_odds.error == pytest.approx(spread, rel=0.02)


def near(found, expected):
    assert abs(found.value - expected) <= FAR * found.error


@pytest.mark.parametrize("tau", [0.0, 0.4, 1.2])
def test_chances_of_an_ordinary_unit_agree_with_another_quadrature(tau):
    layout = Layout((20, 20, 20), 0.074, tau, cases=30)
    nodes, weights = special.roots_hermitenorm(100)
    own = special.expit(special.logit(0.074) + tau * nodes)
    other = stats.binom.pmf(np.arange(31)[:, None], 30, own) @ weights / np.sqrt(2 * np.pi)
    chances = true_chances(layout)
    assert chances.ordinary == pytest.approx(other, abs=1e-8)
    assert chances.doubled == pytest.approx(stats.binom.pmf(np.arange(31), 30, 0.148), abs=1e-12)
