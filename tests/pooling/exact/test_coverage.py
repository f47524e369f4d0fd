"""Own small simulations: what the exact model mends. Seeds fixed; not published values."""

import math

import numpy as np
import pytest
from scipy import special

from evsyn import pool_proportions
from evsyn.effects.proportions import logit_effects
from evsyn.pooling.binomial_normal import pool_binomial_normal
from evsyn.pooling.result import Status
from evsyn.pooling.strata_exact import strata_test_exact
from evsyn.pooling.strata_test import StrataStatus
from evsyn.pooling.strata_two_step import strata_test_two_step

pytestmark = pytest.mark.slow

REPLICATIONS = 300


def series(rng, k, mu, tau, median=40, spread=0.8):
    total = np.clip(np.rint(median * np.exp(spread * rng.standard_normal(k))), 8, 250)
    events = rng.binomial(total.astype(int), special.expit(mu + tau * rng.standard_normal(k)))
    return events, total


def test_exact_limits_cover_where_two_step_limits_do_not():
    # Typical rate 7.4%, spread 0.6 log-odds, 15 studies of 8 to 250 patients.
    rng = np.random.default_rng(74)
    truth = 0.074
    exact = two_step = 0
    for _ in range(REPLICATIONS):
        counts = series(rng, 15, special.logit(truth), 0.6)
        pooled, headline = pool_binomial_normal(*counts), pool_proportions(*counts)
        assert pooled.status is Status.POOLED
        exact += pooled.low <= truth <= pooled.high
        two_step += headline.low <= truth <= headline.high
    error = math.sqrt(0.95 * 0.05 / REPLICATIONS)
    assert abs(exact / REPLICATIONS - 0.95) < 3 * error
    assert two_step / REPLICATIONS < 0.95 - 6 * error


def test_prediction_limits_hold_a_new_setting():
    rng = np.random.default_rng(75)
    inside = 0
    for _ in range(REPLICATIONS):
        pooled = pool_binomial_normal(*series(rng, 15, special.logit(0.2), 0.6, median=90))
        new = special.expit(special.logit(0.2) + 0.6 * rng.standard_normal())
        inside += pooled.prediction_low <= new <= pooled.prediction_high
    # ML estimates of spread are low, so coverage may fall a little short of 95%.
    assert 0.90 < inside / REPLICATIONS < 0.98


def test_added_halves_make_a_difference_between_levels_that_is_not_there():
    # Truth 5% in both levels; small studies in one and larger ones in the other.
    rng = np.random.default_rng(76)
    levels = ["old"] * 12 + ["new"] * 12
    exact, two_step, rejected = [], [], 0
    for _ in range(REPLICATIONS):
        old = series(rng, 12, special.logit(0.05), 0.4, median=20, spread=0.2)
        new = series(rng, 12, special.logit(0.05), 0.4, median=90, spread=0.2)
        events, total = np.concatenate([old, new], axis=1)
        test = strata_test_exact(events, total, levels)
        if test.status is not StrataStatus.TESTED:
            continue
        effects = logit_effects(events, total)
        biased = strata_test_two_step(effects.estimate, effects.variance, levels)
        exact.append(test.differences[0].estimate)
        two_step.append(biased.differences[0].estimate)
        rejected += test.p < 0.05
    error = np.nanstd(exact) / math.sqrt(len(exact))
    assert abs(np.nanmean(exact)) < 3 * error
    assert np.mean(two_step) > 0.1
    assert rejected / len(exact) < 0.05 + 3 * math.sqrt(0.05 * 0.95 / len(exact))
