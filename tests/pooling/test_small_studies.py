"""Lines through small and large studies, against an independent computation and a library."""

import numpy as np
import pytest
import statsmodels.api as sm

from evsyn.effects.proportions import logit_effects
from evsyn.pooling.small_studies import harbord, peters, peters_proportions
from tests.pooling.test_printed_classics import BCG, log_odds_ratio

ARMS = (BCG[:, 0], BCG[:, 1], BCG[:, 2], BCG[:, 3])


def test_bcg_trials_by_peters(printed):
    """Independent computation by another route, no printed source."""
    found = peters(*ARMS)
    assert found.tested == printed("-563.688204")
    assert found.p == printed("0.200292")
    assert (found.k, found.df) == (13, 11)


def test_bcg_trials_by_harbord(printed):
    """Independent computation by another route, no printed source."""
    found = harbord(*ARMS)
    assert found.tested == printed("-2.092992")
    assert found.p == printed("0.234972")


def test_peters_is_weighted_least_squares():
    y, _ = log_odds_ratio(BCG)
    events, total = ARMS[0] + ARMS[2], ARMS[1] + ARMS[3]
    weight = 1 / (1 / events + 1 / (total - events))
    other = sm.WLS(y, sm.add_constant(1 / total), weights=weight).fit()
    found = peters(*ARMS)
    assert (found.other, found.tested) == pytest.approx(tuple(other.params))
    assert (found.se, found.t, found.p) == pytest.approx(
        (other.bse[1], other.tvalues[1], other.pvalues[1])
    )


def test_harbord_is_least_squares_on_the_score():
    x1, n1, x2, n2 = (one.astype(float) for one in ARMS)
    n, m = n1 + n2, x1 + x2
    root = np.sqrt(n1 * n2 * m * (n - m) / (n**2 * (n - 1)))
    other = sm.OLS((x1 - n1 * m / n) / root, sm.add_constant(root)).fit()
    found = harbord(*ARMS)
    assert (found.tested, found.other) == pytest.approx(tuple(other.params))
    assert (found.se, found.p) == pytest.approx((other.bse[0], other.pvalues[0]))


def test_proportions_are_weighted_by_size():
    rng = np.random.default_rng(5)
    total = rng.integers(10, 300, 20)
    events = rng.binomial(total, 0.1)
    other = sm.WLS(
        logit_effects(events, total).estimate, sm.add_constant(1 / total), weights=total
    ).fit()
    found = peters_proportions(events, total)
    assert (found.other, found.tested) == pytest.approx(tuple(other.params))
    assert found.p == pytest.approx(other.pvalues[1])
    assert found.tested == pytest.approx(-peters_proportions(total - events, total).tested)


def test_studies_without_an_event_leave_a_line_of_two_arms_alone():
    more = [np.append(one, value) for one, value in zip(ARMS, (0, 50, 0, 50), strict=True)]
    assert peters(*more) == peters(*ARMS)
    assert harbord(*more) == harbord(*ARMS)


def test_where_all_sizes_are_one_there_is_no_line():
    assert np.isnan(peters_proportions([1, 2, 3, 4], [50] * 4).p)
    assert np.isnan(peters_proportions([1, 2], [50, 60]).tested)


@pytest.mark.parametrize("rate", [0.03, 0.06])
def test_weights_by_size_give_few_false_alarms_where_inverse_variances_give_many(rate):
    """600 reviews of 26 studies of one rate: nothing differs by size (own simulation).

    One test in 20 is wanted. The error of a share of 600 is under 2 points.
    """
    rng = np.random.default_rng(2)
    total = np.clip(np.exp(rng.normal(np.log(60), 0.8, (600, 26))).astype(int), 12, 400)
    events = rng.binomial(total, rate)
    by_size = [peters_proportions(x, n).p < 0.05 for x, n in zip(events, total, strict=True)]
    by_variance = []
    for x, n in zip(events, total, strict=True):
        effects = logit_effects(x, n)
        design = sm.add_constant(1 / n)
        line = sm.WLS(effects.estimate, design, weights=1 / effects.variance).fit()
        by_variance.append(line.pvalues[1] < 0.05)
    assert np.mean(by_size) < 0.07
    assert np.mean(by_variance) > 0.08
