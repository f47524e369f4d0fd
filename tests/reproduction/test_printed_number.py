"""A printed number keeps its decimals, its mark and its sign."""

import pytest

from evsyn.reproduction.printed_number import printed_number


@pytest.mark.parametrize(
    ("text", "value", "half", "mark", "percent"),
    [
        ("0.56", 0.56, 0.005, "", False),
        ("0.50", 0.5, 0.005, "", False),
        ("14", 14, 0.5, "", False),
        ("-0.47", -0.47, 0.005, "", False),
        ("\u22120.47", -0.47, 0.005, "", False),
        ("\u20130.47", -0.47, 0.005, "", False),
        ("0·84", 0.84, 0.005, "", False),
        ("0,84", 0.84, 0.005, "", False),
        (".05", 0.05, 0.005, "", False),
        ("<0.001", 0.001, 0.0005, "<", False),
        ("< 0.001", 0.001, 0.0005, "<", False),
        ("\u2264 0.01", 0.01, 0.005, "<", False),
        ("= 0.04", 0.04, 0.005, "", False),
        (">0.9", 0.9, 0.05, ">", False),
        ("70.6%", 70.6, 0.05, "", True),
        ("12 %", 12, 0.5, "", True),
    ],
)
def test_it_is_read(text, value, half, mark, percent):
    number = printed_number(text)
    assert (number.value, number.mark, number.percent) == (value, mark, percent)
    assert number.half == pytest.approx(half)


@pytest.mark.parametrize("text", ["", "-", "NS", "0.5 to 0.6", "1.2.3", "1e5", "p<0.05", "%", "<"])
def test_what_is_no_number_is_refused(text):
    with pytest.raises(ValueError, match="a number as printed"):
        printed_number(text)


def test_ties_hold_on_both_sides_and_nothing_beyond():
    number = printed_number("0.12")
    assert number.holds(0.115, 0.115)
    assert number.holds(0.125, 0.125)
    assert not number.holds(0.12501, 0.13)
    assert not number.holds(0.10, 0.11499)
    assert number.holds(0.0, 1.0)


def test_a_bound_holds_all_below_it():
    number = printed_number("<0.001")
    assert number.holds(1e-9, 1e-9)
    assert not number.holds(0.0011, 0.0011)
    assert printed_number(">0.9").holds(0.95, 0.95)
    assert not printed_number(">0.9").holds(0.89, 0.89)
