"""The share of ordinary units below a number is the tail of a t distribution, by scipy's own."""

import math

import pytest

from evsyn.claims.ordinary_units import unit_share
from evsyn.claims.reach import reach_of
from evsyn.extraction.claim_value import amount
from tests.claims.builders import DEMO, PUBLISHED, weighed


def expected(centre, k, rate):
    from scipy.stats import t

    width = math.hypot(centre.tau, centre.se)
    return t(k - 1).cdf((math.log(rate / (1 - rate)) - centre.mu) / width)


@pytest.mark.parametrize("folder", [DEMO, PUBLISHED])
@pytest.mark.parametrize("rate", [0.02, 0.05, 0.1])
def test_below_above_and_between(folder, rate):
    pool = weighed(folder, about="evidence", outcome="perforation", relation="none")
    answer = pool.weighed.found.held.pooled.answer
    reading, k = answer.reading, answer.k

    def share(text):
        return unit_share(answer, reach_of(amount(text)))

    below = share(f"below {100 * rate:g}%")
    for at, centre in (
        (below.share, reading.centre),
        (below.at_low.share, reading.at_tau_low),
        (below.at_high.share, reading.at_tau_high),
    ):
        assert at == pytest.approx(expected(centre, k, rate), abs=1e-5)
    assert share(f"above {100 * rate:g}%").share == pytest.approx(1 - below.share, abs=1e-12)
    between = share(f"{50 * rate:g}-{100 * rate:g}%")
    low = expected(reading.centre, k, rate / 2)
    assert between.share == pytest.approx(below.share - low, abs=1e-5)


def test_all_units_lie_between_nought_and_all():
    pool = weighed(DEMO, about="evidence", outcome="perforation", relation="none")
    found = unit_share(pool.weighed.found.held.pooled.answer, reach_of(amount("0-100%")))
    assert found.share == 1
