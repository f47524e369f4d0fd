"""The rates a statement is true of, with a tie as a tie; and the verdict of an interval."""

from fractions import Fraction

import pytest

from evsyn.claims.reach import reach_of
from evsyn.claims.verdict import ClaimVerdict, by_interval
from evsyn.extraction.claim_value import Side, amount


def reach(text, side=None):
    found = amount(text)
    assert found is not None
    return reach_of(found, side)


@pytest.mark.parametrize(
    ("text", "rate", "holds"),
    [
        ("below 5%", Fraction(1, 21), True),
        ("below 5%", Fraction(1, 20), False),
        ("below 5%", Fraction(0), True),
        ("above 5%", Fraction(1, 20), False),
        ("above 5%", Fraction(1), True),
        ("2-5%", Fraction(1, 20), True),
        ("2-5%", Fraction(1, 50), True),
        ("2-5%", Fraction(1, 51), False),
    ],
)
def test_which_rates(text, rate, holds):
    assert reach(text).holds(rate) is holds


@pytest.mark.parametrize(
    ("text", "low", "high", "verdict"),
    [
        ("below 5%", 0.01, 0.0499, ClaimVerdict.BORNE_OUT),
        ("below 5%", 0.01, Fraction(1, 20), ClaimVerdict.BEYOND),
        ("below 5%", Fraction(1, 20), 0.08, ClaimVerdict.CONTRADICTED),
        ("above 90%", 0.91, 0.95, ClaimVerdict.BORNE_OUT),
        ("above 90%", 0.5, Fraction(9, 10), ClaimVerdict.CONTRADICTED),
        ("2-8%", Fraction(1, 50), Fraction(8, 100), ClaimVerdict.BORNE_OUT),
        ("2-8%", 0.0, 0.08, ClaimVerdict.BEYOND),
        ("2-8%", 0.09, 0.2, ClaimVerdict.CONTRADICTED),
    ],
)
def test_the_verdict_of_an_interval(text, low, high, verdict):
    assert by_interval(low, high, reach(text)) is verdict


def test_a_series_at_the_very_number_is_told_apart():
    assert reach("below 5%").at_edge(Fraction(1, 20))
    assert reach("5%", Side.ABOVE).at_edge(Fraction(1, 20))
    assert not reach("2-5%").at_edge(Fraction(1, 20))
