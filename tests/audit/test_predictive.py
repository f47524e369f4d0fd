"""The chance of each count among new units, against second routes and worked numbers."""

import itertools
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate, special, stats

from evsyn.audit.predictive import (
    MOST_CASES,
    beta_binomial,
    knows_spread,
    predictive,
    same_rate,
    spread_used,
    student,
)
from evsyn.pooling.answer import Centre
from tests.audit.made_up import MU, reading

centres = st.builds(
    Centre,
    mu=st.floats(-5, 5),
    se=st.floats(0.02, 1.5),
    tau=st.floats(0, 2.5),
)
sizes = st.integers(1, 120)
studies = st.integers(3, 60)


def by_quadrature(centre, k, cases, events):
    """Adaptive quadrature over the t density, split where the integrand turns."""
    width = math.hypot(centre.tau, centre.se)

    def chance(deviate):
        rate = special.expit(centre.mu + width * deviate)
        return stats.binom.pmf(events, cases, rate) * stats.t.pdf(deviate, k - 1)

    edges = [-np.inf, -40, -8, -3, -1, 0, 1, 3, 8, 40, np.inf]
    return sum(
        integrate.quad(chance, a, b, epsabs=1e-12, epsrel=1e-11, limit=400)[0]
        for a, b in itertools.pairwise(edges)
    )


# Own computation, no printed source: mu = logit 7.4%, se .12, tau .60, 30 studies, by three
# routes (the binomial alone, the normal and the t); the t column stands here to its four digits.
@pytest.mark.parametrize(
    ("cases", "events", "told"),
    [
        (20, 5, "0.0612"),
        (40, 6, "0.1851"),
        (40, 8, "0.0791"),
        (100, 10, "0.3482"),
        (8, 4, "0.010"),
    ],
)
def test_worked_upper_tails(cases, events, told, printed):
    pmf = predictive(reading(), 30).pmf(cases)
    assert pmf[events:].sum() == printed(told)


# Own computation, no printed source: the same with no spread between units.
def test_eight_of_forty_is_rare_if_all_share_the_rate():
    tail = same_rate(reading(), 30).pmf(40)[8:].sum()
    assert 1 / tail == pytest.approx(101, abs=0.5)
    assert 1 / stats.binom.sf(7, 40, 0.074) == pytest.approx(123, abs=0.5)


@pytest.mark.parametrize("k", [3, 4, 5, 12, 30])
@pytest.mark.parametrize(
    "centre", [Centre(MU, 0.12, 0.6), Centre(3.1, 0.5, 0.2), Centre(-0.4, 0.3, 1.8)]
)
def test_every_chance_agrees_with_adaptive_quadrature(centre, k):
    cases = 40
    pmf = student(centre, k).pmf(cases)
    for events in (0, 1, 3, 8, 20, 39, 40):
        assert pmf[events] == pytest.approx(by_quadrature(centre, k, cases, events), abs=1e-8)


@pytest.mark.parametrize("cases", [1, 7, 20, 40, 250])
@pytest.mark.parametrize(
    ("mean", "rho"), [(0.074, 0.03), (0.95, 0.1), (0.5, 0.6), (0.002, 0.2), (0.3, 1e-4)]
)
def test_beta_binomial_agrees_with_scipy(mean, rho, cases):
    size = (1 - rho) / rho
    expected = stats.betabinom.pmf(np.arange(cases + 1), cases, mean * size, (1 - mean) * size)
    assert beta_binomial(mean, rho).pmf(cases) == pytest.approx(expected, abs=1e-8)


def test_hardly_any_correlation_comes_to_the_binomial():
    pmf = beta_binomial(0.3, 1e-12).pmf(50)
    assert pmf == pytest.approx(stats.binom.pmf(np.arange(51), 50, 0.3), abs=1e-8)


# Own computation, no printed source: mean 7.4%, rho .03, 6 or more of 40.
def test_worked_beta_binomial_tail(printed):
    row = reading(rho=0.03, mean=0.074)
    assert predictive(row, 30).pmf(40)[6:].sum() == printed("0.144")


def test_many_studies_and_no_spread_come_to_the_binomial():
    pmf = student(Centre(MU, 1e-6, 0.0), 10_000).pmf(60)
    assert pmf == pytest.approx(stats.binom.pmf(np.arange(61), 60, 0.074), abs=1e-8)


def test_a_point_is_a_binomial():
    pmf = student(Centre(MU, 0.0, 0.0), 5).pmf(30)
    assert pmf == pytest.approx(stats.binom.pmf(np.arange(31), 30, 0.074), abs=1e-12)


@given(centres, studies, sizes)
def test_chances_sum_to_one(centre, k, cases):
    pmf = student(centre, k).pmf(cases)
    assert pmf.shape == (cases + 1,)
    assert (pmf >= 0).all()
    assert pmf.sum() == pytest.approx(1, abs=1e-9)


@given(centres, studies, sizes)
def test_counting_non_events_mirrors_the_chances(centre, k, cases):
    mirrored = Centre(-centre.mu, centre.se, centre.tau)
    there, back = student(centre, k).pmf(cases), student(mirrored, k).pmf(cases)
    assert there == pytest.approx(back[::-1], abs=1e-9)


def test_nodes_reweighted_by_a_first_year_agree_with_quadrature():
    centre, k = Centre(MU, 0.12, 0.6), 30
    log_odds, weights = student(centre, k).nodes(40)
    assert weights.sum() == pytest.approx(1, abs=1e-12)
    seen = weights * stats.binom.pmf(5, 20, special.expit(log_odds))
    shrunk = seen @ special.expit(log_odds) / seen.sum()
    # Own computation, no printed source: 5 of 20 at 7.4% shrinks to 15.5%.
    assert 100 * shrunk == pytest.approx(15.5, abs=0.05)


def test_large_units_settle_too():
    pmf = student(Centre(MU, 0.12, 0.6), 30).pmf(2000)
    assert pmf.sum() == pytest.approx(1, abs=1e-9)
    expected = by_quadrature(Centre(MU, 0.12, 0.6), 30, 2000, 150)
    assert pmf[150] == pytest.approx(expected, abs=1e-8)


def test_next_to_no_spread_gives_way_to_the_larger_plausible_one():
    larger = Centre(-2.4, 0.2, 0.35)
    row = reading(tau=0.05, larger=larger)
    assert spread_used(row) is larger
    assert predictive(row, 9).pmf(30) == pytest.approx(student(larger, 9).pmf(30))


def test_spread_at_the_edge_stands():
    row = reading(tau=0.1, larger=Centre(-2.4, 0.2, 0.35))
    assert spread_used(row) is row.centre


def test_without_the_larger_spread_nothing_is_predicted():
    row = reading(tau=0.0)
    assert not knows_spread(row)
    with pytest.raises(ValueError, match="larger plausible"):
        predictive(row, 9)


def test_a_beta_binomial_without_correlation_knows_no_spread():
    assert not knows_spread(reading(rho=0.0, tau=0.0))
    assert not knows_spread(reading(rho=1e-5, tau=0.0))
    assert knows_spread(reading(rho=0.03, tau=0.0))
    pmf = predictive(reading(se=0.0, tau=0.0, rho=0.0), 6).pmf(20)
    assert pmf == pytest.approx(stats.binom.pmf(np.arange(21), 20, 0.074), abs=1e-10)


@pytest.mark.parametrize("cases", [0, -1, MOST_CASES + 1])
def test_sizes_out_of_range_are_refused(cases):
    with pytest.raises(ValueError, match="cases must lie"):
        student(Centre(MU, 0.12, 0.6), 30).pmf(cases)


def test_two_studies_predict_nothing():
    with pytest.raises(ValueError, match="3 studies"):
        student(Centre(MU, 0.12, 0.6), 2)


@pytest.mark.parametrize(("mean", "rho"), [(0.0, 0.1), (1.0, 0.1), (0.1, 0.0), (0.1, 1.0)])
def test_impossible_beta_binomials_are_refused(mean, rho):
    with pytest.raises(ValueError, match="mean and rho"):
        beta_binomial(mean, rho)
