"""Digits: a number is a row's own if it rounds to it, either way at a tie, or is cut off."""

from fractions import Fraction

import pytest

from evsyn.claims.equals import fit_to
from evsyn.extraction.claim_value import amount
from evsyn.extraction.percentages import Fit


@pytest.mark.parametrize(
    ("rate", "value", "fit"),
    [
        # 1 of 16 is 6.25%: half up gives 6.3, half to even 6.2, and both stand.
        (Fraction(1, 16), "6.3%", Fit.ROUNDED),
        (Fraction(1, 16), "6.2%", Fit.ROUNDED),
        (Fraction(1, 16), "6.1%", Fit.IMPOSSIBLE),
        (Fraction(1, 16), "6.25%", Fit.ROUNDED),
        # 9 of 143 is 6.2937%: 6.3 rounded, 6.2 cut off.
        (Fraction(9, 143), "6.3%", Fit.ROUNDED),
        (Fraction(9, 143), "6.2%", Fit.TRUNCATED),
        (Fraction(9, 143), "6%", Fit.ROUNDED),
        # Trailing zeros are decimals: 7.40% is not what 7.37% gives.
        (Fraction(7, 95), "7.4%", Fit.ROUNDED),
        (Fraction(7, 95), "7.40%", Fit.IMPOSSIBLE),
        (Fraction(7, 95), "7,4%", Fit.ROUNDED),
        # One in b: one over the rate rounds to b.
        (Fraction(1, 20), "1 in 20", Fit.ROUNDED),
        (Fraction(51, 1000), "1 in 20", Fit.ROUNDED),
        (Fraction(52, 1000), "1 in 20", Fit.IMPOSSIBLE),
        (Fraction(7, 200), "4 in 100", Fit.ROUNDED),
        (Fraction(0), "1 in 20", Fit.IMPOSSIBLE),
        (Fraction(0), "0.0%", Fit.ROUNDED),
    ],
)
def test_digits(rate, value, fit):
    found = amount(value)
    assert found is not None
    assert fit_to(rate, found) is fit
