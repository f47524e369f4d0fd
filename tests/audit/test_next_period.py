"""A count drawn toward ordinary units, against quadrature, closed forms and worked numbers."""

import itertools
import json
import math
from dataclasses import asdict

import numpy as np
import pytest
from scipy import integrate, optimize, special, stats

from evsyn.audit.next_period import next_period, reweighted
from evsyn.audit.predictive import MOST_CASES, student
from evsyn.audit.reasons import Reason
from evsyn.audit.verdict import Verdict
from evsyn.pooling.answer import Centre, Show
from evsyn.terms import Better
from tests.audit.made_up import MU, answer, reading

BETA = answer(12, reading(se=0.0, tau=0.0, rho=0.03, mean=0.074))


def after(events, total, later=None, made=None, better=Better.FEWER, **kinds):
    return next_period(
        (events, total), later, answer() if made is None else made, better=better, **kinds
    )


class ByQuadrature:
    """The rate after a count, by adaptive quadrature over the t density and its likelihood."""

    def __init__(self, events, total, k=30):
        self.width = math.hypot(0.6, 0.12)
        peak = optimize.minimize_scalar(
            lambda d: -self._log(d, events, total, k), bounds=(-30, 30), method="bounded"
        )
        self.density = lambda d: math.exp(self._log(d, events, total, k) + peak.fun)
        self.all = self._over(self.density, -40, 40)

    def _log(self, d, events, total, k):
        return stats.t.logpdf(d, k - 1) + stats.binom.logpmf(events, total, self.rate(d))

    def rate(self, d):
        return special.expit(MU + self.width * d)

    @staticmethod
    def _over(what, low, high):
        edges = np.linspace(low, high, 40)
        return sum(
            integrate.quad(what, a, b, epsabs=1e-13, epsrel=1e-9)[0]
            for a, b in itertools.pairwise(edges)
        )

    def mean(self, of):
        return self._over(lambda d: self.density(d) * of(self.rate(d)), -40, 40) / self.all

    def share_below(self, rate):
        place = (special.logit(rate) - MU) / self.width
        return self._over(self.density, -40, place) / self.all


# Own computation, re-derived here by quadrature, no printed source: 7.4%, se .12, tau .6, k = 30.
@pytest.mark.parametrize(
    ("events", "shrunk", "low", "high", "expected"),
    [(5, "0.155", "0.064", "0.291", "3.1"), (0, "0.055", "0.016", "0.124", "1.1")],
)
def test_worked_shrinkage_of_twenty_cases(events, shrunk, low, high, expected, printed):
    found = after(events, 20)
    assert found.shrunk == printed(shrunk)
    assert found.shrunk_low == printed(low)
    assert found.shrunk_high == printed(high)
    assert found.again_expected == printed(expected)
    second = ByQuadrature(events, 20)
    assert found.shrunk == pytest.approx(second.mean(lambda p: p), abs=1e-8)
    assert second.share_below(found.shrunk_low) == pytest.approx(0.025, abs=1e-6)
    assert second.share_below(found.shrunk_high) == pytest.approx(0.975, abs=1e-6)


# Own computation, no printed source: with nothing changed 5 of 20 is followed by fewer in 78%.
def test_a_high_count_falls_by_itself(printed):
    found = after(5, 20)
    assert found.again.below == printed("0.78")
    second = ByQuadrature(5, 20).mean(lambda p: stats.binom.cdf(4, 20, p))
    assert found.again.below == pytest.approx(second, abs=1e-7)


# Own computation, no printed source; the closed form is that of the beta-binomial.
@pytest.mark.parametrize(
    ("events", "shrunk", "low", "high"),
    [(5, "14.1", "6.2", "24.7"), (0, "4.6", "0.7", "11.6")],
)
def test_the_beta_binomial_twin(events, shrunk, low, high, printed):
    found = after(events, 20, made=BETA)
    assert 100 * found.shrunk == printed(shrunk)
    assert 100 * found.shrunk_low == printed(low)
    assert 100 * found.shrunk_high == printed(high)
    size = 0.97 / 0.03
    alpha, beta = 0.074 * size + events, 0.926 * size + 20 - events
    assert found.shrunk == pytest.approx(alpha / (alpha + beta), rel=1e-8)
    assert found.shrunk_low == pytest.approx(stats.beta.ppf(0.025, alpha, beta), rel=1e-5)
    next_time = stats.betabinom(20, alpha, beta)
    assert found.again.below == pytest.approx(next_time.cdf(events - 1), abs=1e-8)
    if events:
        assert found.again.below == printed("0.83")
        assert found.again_expected == printed("2.8")


@pytest.mark.parametrize(("earlier", "later"), [((5, 20), 30), ((0, 3), 80), ((199, 200), 7)])
def test_the_later_count_is_predicted_by_a_ratio_of_joint_chances(earlier, later):
    """P(x2 | x1) is P(x1 and x2) over P(x1), both over the nodes of ordinary units."""
    log_odds, weights = student(Centre(MU, 0.12, 0.6), 30).nodes(earlier[1] + later)
    rates = special.expit(log_odds)
    seen = weights * stats.binom.pmf(*earlier, rates)
    events = 2
    expected = seen @ stats.binom.pmf(events, later, rates) / seen.sum()
    found = after(*earlier, (events, later)).later
    assert found.unchanged.same == pytest.approx(expected, abs=1e-6)


def test_a_count_far_out_keeps_its_precision():
    """All of 60: such a unit is one in millions, and its rate is known none the less."""
    second = ByQuadrature(60, 60)
    assert after(60, 60).shrunk == pytest.approx(second.mean(lambda p: p), rel=1e-7)


def test_the_verdict_is_that_of_the_range_after_the_earlier_count():
    found = after(0, 20, (6, 20)).later
    assert (found.limits.low, found.limits.high, found.limits.first_more) == (0, 4, 5)
    assert (found.verdict, found.is_unfavourable, found.judged) == (Verdict.MORE, True, True)
    # The same six cases are ordinary after five of twenty, or after none seen before.
    assert after(5, 20, (6, 20)).later.verdict is Verdict.WITHIN
    fall = after(30, 40, (0, 40)).later
    assert (fall.verdict, fall.is_unfavourable) == (Verdict.FEWER, False)


def test_only_what_may_be_said_is_said():
    assert after(0, 20, (6, 20), more=False).later.verdict is Verdict.NONE
    silent = after(30, 40, (0, 40), fewer=False).later
    assert (silent.verdict, silent.reason) == (Verdict.NONE, Reason.WINDOW)
    few = after(0, 20, (6, 20), answer(4)).later
    assert (few.verdict, few.reason, few.judged) == (Verdict.NONE, Reason.FEW_STUDIES, False)
    flat = answer(12, reading(se=0.0, tau=0.0, rho=0.0, mean=0.074))
    assert after(0, 20, (6, 20), flat).later.reason is Reason.NO_SPREAD
    assert after(1, 2, (1, 1), answer(12, reading(tau=1.2, k=12))).later.reason is (
        Reason.TOO_FEW_CASES
    )


def test_noticing_a_doubled_risk():
    found = after(5, 20, (2, 25))
    notice = found.later.notice
    assert notice.typical == pytest.approx(found.shrunk, abs=1e-8)
    assert notice.doubled == pytest.approx(2 * found.shrunk, abs=1e-8)
    first = found.later.limits.first_more
    assert notice.notice == pytest.approx(stats.binom.sf(first - 1, 25, notice.doubled))
    beyond = 1 - ByQuadrature(5, 20).share_below(notice.doubled)
    assert notice.share_beyond == pytest.approx(beyond, abs=1e-6)
    assert after(60, 60, (5, 5), answer(12, reading(4.0, k=12))).later.notice is None


def test_success_mirrors_harm():
    harm = after(5, 20, (2, 25))
    success = after(15, 20, (23, 25), answer(30, reading(-MU)), Better.MORE)
    assert success.shrunk == pytest.approx(1 - harm.shrunk, abs=1e-8)
    assert success.shrunk_low == pytest.approx(1 - harm.shrunk_high, abs=1e-6)
    assert success.again.above == pytest.approx(harm.again.below, abs=1e-8)
    assert success.later.limits.last_fewer == 25 - harm.later.limits.first_more
    assert success.later.notice.notice == pytest.approx(harm.later.notice.notice, abs=1e-7)
    assert success.later.notice.share_beyond == pytest.approx(
        harm.later.notice.share_beyond, abs=1e-6
    )


def test_the_crude_count_stands_beside_the_drawn_one():
    found = after(5, 20)
    assert (found.earlier.events, found.earlier.total) == (5, 20)
    assert found.earlier.interval.low == pytest.approx(stats.beta.ppf(0.025, 5, 16))
    assert found.later is None


@pytest.mark.parametrize("total", [1, 7, 40])
def test_drawn_rates_average_to_the_mean_of_ordinary_units_and_rise_with_the_count(total):
    """The mean over counts of the mean given the count is the mean (the tower property)."""
    units = student(Centre(MU, 0.12, 0.6), 30)
    drawn = np.array([after(events, total).shrunk for events in range(total + 1)])
    log_odds, weights = units.nodes(total)
    assert units.pmf(total) @ drawn == pytest.approx(weights @ special.expit(log_odds), abs=1e-7)
    assert (np.diff(drawn) > 0).all()


def test_many_cases_draw_little():
    assert after(1000, 5000).shrunk == pytest.approx(0.2, abs=0.001)
    assert after(1000, 5000, (1000, MOST_CASES)).later.verdict is Verdict.WITHIN


def test_no_cases_before_would_be_the_range_of_ordinary_units():
    units = student(Centre(MU, 0.12, 0.6), 30)
    assert reweighted(units, 0, 0).pmf(40) == pytest.approx(units.pmf(40), abs=1e-9)


@pytest.mark.parametrize(("events", "total"), [(-1, 20), (21, 20)])
def test_counts_out_of_range_are_refused(events, total):
    with pytest.raises(ValueError, match="events must lie"):
        after(events, total)


def test_without_a_row_to_read_there_is_nothing_to_draw_toward():
    with pytest.raises(ValueError, match="no row to read"):
        after(5, 20, made=answer(2, show=Show.TWO))


def test_all_of_it_is_plain_data():
    plain = json.loads(json.dumps(asdict(after(5, 20, (2, 25))), allow_nan=False))
    assert plain["later"]["verdict"] == "within_the_range"
    assert plain["earlier"]["events"] == 5
