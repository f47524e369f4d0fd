"""A layout that cannot be simulated is refused with a sentence."""

import pytest

from evsyn.calibration import Layout
from evsyn.terms import Better

SIZES = (20, 40, 90)


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"sizes": (20, 40)}, "pooled from 3 studies on; this layout has 2"),
        ({"sizes": (20, 40, 0)}, "whole number of patients, 1 or more"),
        ({"rate": 0.0}, "neither of them; got 0"),
        ({"rate": 1.0}, "neither of them; got 1"),
        ({"rate": float("nan")}, "The rate lies between 0 and 1"),
        ({"tau": -0.1}, "Tau lies between 0 and 5 log-odds; got -0.1"),
        ({"tau": float("nan")}, "Tau lies between"),
        ({"cases": 0}, "from 1 to 5,000 cases; got 0"),
        ({"levels": (("old", SIZES),)}, "two levels on"),
        ({"levels": (("old", SIZES), ("old", SIZES))}, "different names"),
        ({"levels": (("old", SIZES), ("new", (9, 9)))}, "three studies in each"),
    ],
)
def test_refusals(change, told):
    with pytest.raises(ValueError, match=told):
        Layout(**{"sizes": SIZES, "rate": 0.1, "tau": 0.5, **change})


def test_twice_the_risk_is_of_the_unfavourable_side():
    assert Layout(SIZES, 0.074, 0.6).doubled == pytest.approx(0.148)
    assert Layout(SIZES, 0.93, 0.6).doubled == pytest.approx(0.86)
    assert Layout(SIZES, 0.3, 0.6, better=Better.MORE).doubled == pytest.approx(0.05)
    assert Layout(SIZES, 0.6, 0.6, better=Better.FEWER).doubled == pytest.approx(0.95)


def test_a_unit_is_as_large_as_the_median_study_unless_told():
    assert Layout(SIZES, 0.1, 0.5).unit_cases == 40
    assert Layout(SIZES, 0.1, 0.5, cases=75).unit_cases == 75


def test_95_in_100_settings():
    # logit 0.1 = -2.197225; -2.197225 -+ 1.959964 * 0.5 = -3.177207 and -1.217243, by hand.
    low, high = Layout(SIZES, 0.1, 0.5).range_of_settings
    assert (low, high) == (pytest.approx(0.04003, abs=5e-6), pytest.approx(0.22842, abs=5e-6))
