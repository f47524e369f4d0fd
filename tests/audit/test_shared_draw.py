"""One draw for all levels of a unit, against quadrature, simulation and worked numbers."""

import itertools
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import integrate, special, stats

from evsyn.audit.nodes import nodes, student_log_density
from evsyn.audit.predictive import predictive, same_rate
from evsyn.audit.shared_draw import LevelPool, separate_draws, shared_draw, shared_typical
from evsyn.audit.totals import totals
from evsyn.audit.verdict import limits
from evsyn.pooling.answer import Centre
from tests.audit.made_up import MU, reading

TOY = [
    LevelPool(cases, reading(float(special.logit(rate))), 30)
    for cases, rate in zip((24, 12, 30, 6), (0.10, 0.08, 0.05, 0.04), strict=True)
]
BETA = reading(se=0.0, tau=0.0, rho=0.03, mean=0.074)


def convolved(cases, rates):
    pmf = np.ones(1)
    for n, p in zip(cases, rates, strict=True):
        pmf = np.convolve(pmf, stats.binom.pmf(np.arange(n + 1), n, p))
    return pmf


def by_quadrature(levels, freedom, events):
    """Adaptive quadrature over the t density of the binomials' convolution."""

    def chance(deviate):
        rates = []
        for level in levels:
            row = level.reading
            if row.rho:
                size = (1 - row.rho) / row.rho
                beta = stats.beta(row.mean * size, (1 - row.mean) * size)
                low = deviate < 0
                tail = stats.t.cdf(-abs(deviate), freedom)
                rates.append(beta.ppf(tail) if low else beta.isf(tail))
            else:
                width = math.hypot(row.centre.tau, row.centre.se)
                rates.append(special.expit(row.centre.mu + width * deviate))
        pmf = convolved([level.cases for level in levels], rates)
        return pmf[events] * stats.t.pdf(deviate, freedom)

    edges = [-np.inf, -40, -8, -3, -1, 0, 1, 3, 8, 40, np.inf]
    return sum(
        integrate.quad(chance, a, b, epsabs=1e-11, epsrel=1e-9, limit=200)[0]
        for a, b in itertools.pairwise(edges)
    )


# Own computation, no printed source: se .12, tau .6, 30 studies at each level.
def test_worked_ranges_of_a_total():
    shared, separate = limits(shared_draw(TOY).pmf()), limits(separate_draws(TOY))
    assert (shared.low, shared.high) == (0, 16)
    assert (separate.low, separate.high) == (1, 13)


@pytest.mark.parametrize(
    ("levels", "events"),
    [
        (TOY, (0, 8, 20)),
        ([LevelPool(9, reading(k=3), 3), LevelPool(14, reading(1.2, k=12), 12)], (0, 11, 23)),
        ([LevelPool(20, BETA, 12), LevelPool(10, reading(k=8), 8)], (0, 3, 9)),
    ],
)
def test_every_chance_agrees_with_adaptive_quadrature(levels, events):
    pmf = shared_draw(levels).pmf()
    freedom = min(level.k for level in levels) - 1
    for x in events:
        assert pmf[x] == pytest.approx(by_quadrature(levels, freedom, x), abs=2e-8)


def test_the_same_by_simulation():
    """200,000 units of fixed seed; three standard errors of a share are at most 0.0034."""
    rng = np.random.default_rng(20260214)
    drawn = stats.t.rvs(29, size=200_000, random_state=rng)
    seen = np.zeros(200_000, dtype=int)
    for level in TOY:
        centre = level.reading.centre
        rates = special.expit(centre.mu + math.hypot(centre.tau, centre.se) * drawn)
        seen += rng.binomial(level.cases, rates)
    pmf = shared_draw(TOY).pmf()
    for events in (2, 5, 8, 12, 17):
        assert np.mean(seen >= events) == pytest.approx(pmf[events:].sum(), abs=0.0034)


@pytest.mark.parametrize(
    ("row", "k"),
    [
        (reading(), 30),
        (reading(2.5, 0.4, 1.3), 4),
        (BETA, 12),
        (reading(tau=0.02, larger=Centre(MU, 0.2, 0.5)), 9),
    ],
)
def test_one_level_is_that_level_alone(row, k):
    level = [LevelPool(40, row, k)]
    assert shared_draw(level).pmf() == pytest.approx(predictive(row, k).pmf(40), abs=1e-8)
    assert shared_typical(level).pmf() == pytest.approx(same_rate(row, k).pmf(40), abs=1e-8)


def test_levels_apart_are_the_convolution_of_their_own_predictions():
    levels = [LevelPool(20, reading(), 30), LevelPool(10, reading(-1.0), 5), LevelPool(6, BETA, 12)]
    each = [predictive(level.reading, level.k).pmf(level.cases) for level in levels]
    expected = np.convolve(np.convolve(each[0], each[1]), each[2])
    assert separate_draws(levels) == pytest.approx(expected, abs=1e-7)


def test_without_spread_the_total_is_poisson_binomial():
    rates = (0.10, 0.08, 0.05, 0.04)
    flat = [
        LevelPool(n, reading(float(special.logit(p)), se=0.0), 30)
        for n, p in zip((24, 12, 30, 6), rates, strict=True)
    ]
    expected = convolved([24, 12, 30, 6], rates)
    assert shared_typical(flat).pmf() == pytest.approx(expected, abs=1e-12)


def test_degrees_of_freedom_are_those_of_the_smallest_pool():
    levels = [LevelPool(20, reading(), 30), LevelPool(10, reading(), 5)]
    assert shared_draw(levels).freedom == shared_typical(levels).freedom == 4


@pytest.mark.parametrize("events", [0.5, 5.8, 20.0, 60.0])
def test_shares_of_units_beyond_an_expected_count(events):
    """The expected count rises with the draw, so the share is a tail of t."""

    def excess(deviate):
        rates = [special.expit(p.reading.centre.mu + math.hypot(0.6, 0.12) * deviate) for p in TOY]
        return np.dot([p.cases for p in TOY], rates) - events

    from scipy.optimize import brentq

    expected = stats.t.sf(brentq(excess, -60, 60), 29)
    assert shared_draw(TOY).share_above(events) == pytest.approx(expected, abs=1e-5)


def test_units_without_spread_are_all_on_one_side():
    flat = shared_typical([LevelPool(40, reading(se=0.0), 30)])
    assert flat.share_above(40 * 0.0739) == 1
    assert flat.share_above(40 * 0.0741) == 0


@given(
    st.lists(
        st.tuples(st.integers(1, 40), st.floats(-4, 4), st.floats(0, 2), st.integers(3, 30)),
        min_size=1,
        max_size=4,
    )
)
@settings(max_examples=40)
def test_counting_non_events_mirrors_the_chances(levels):
    there = [LevelPool(n, reading(mu, tau=max(tau, 0.1), k=k), k) for n, mu, tau, k in levels]
    back = [LevelPool(n, reading(-mu, tau=max(tau, 0.1), k=k), k) for n, mu, tau, k in levels]
    pmf = shared_draw(there).pmf()
    assert pmf.sum() == pytest.approx(1, abs=1e-9)
    assert pmf == pytest.approx(shared_draw(back).pmf()[::-1], abs=1e-9)


@pytest.mark.parametrize("cases", [3, 40, 900, 2500])
@pytest.mark.parametrize("k", [3, 5, 30])
def test_finer_nodes_move_no_chance(cases, k):
    levels = [LevelPool(cases, reading(k=k), k), LevelPool(cases, reading(-1.5, k=k), k)]
    units = shared_draw(levels)
    pmf = units.pmf()
    deviates, weights = nodes(student_log_density(k - 1), units.scale, 2**13 + 1)
    rates = np.stack([rate(deviates) for rate in units.rates], axis=1)
    finer = totals(np.array([cases, cases]), rates, weights)
    assert pmf == pytest.approx(finer, abs=1e-8)
    assert pmf.sum() == pytest.approx(1, abs=1e-9)
