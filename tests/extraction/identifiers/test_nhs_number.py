"""NHS numbers by their check digit, held against the published example and by their properties."""

import re

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from evsyn.extraction.identifiers.nhs_number import holds_nhs_number, is_nhs_number
from tests.extraction.identifiers.sheets import found_in

NINE = st.text("0123456789", min_size=9, max_size=9)
GAP = st.sampled_from(["", " ", "-", ".", "\u00a0", "\u2009", "\u2013", "\u200b", "  ", " - ", "/"])
HEADING = st.one_of(st.text(max_size=12), st.sampled_from(["Ref", "Month", "Site", "Operator"]))


def check_digit(nine):
    """Work the check digit out the other way round: weights 2, 3, ... from the right, modulo 11."""
    total = sum(int(digit) * weight for weight, digit in enumerate(reversed(nine), start=2))
    return (-total) % 11


@st.composite
def valid_numbers(draw):
    nine = draw(NINE)
    check = check_digit(nine)
    assume(check < 10)
    return nine + str(check)


def test_the_published_example_is_one():
    # NHS Data Dictionary, NHS NUMBER: 943 476 5919 (from memory).
    assert is_nhs_number("9434765919")


@pytest.mark.parametrize(
    "text", ["", "943476591", "94347659190", "943 476 5919", "９４３４７６５９１９", "943476591g"]
)
def test_anything_but_ten_digits_is_none(text):
    assert not is_nhs_number(text)


@pytest.mark.parametrize("last", range(10))
def test_a_number_whose_check_would_be_ten_is_none(last):
    # 2 x 10 + ... : the weighted sum of 000000006 is 12, which leaves 1 and would ask for 10.
    assert check_digit("000000006") == 10
    assert not is_nhs_number(f"000000006{last}")


@given(valid_numbers(), st.integers(1, 9))
def test_a_changed_check_digit_is_none(number, by):
    changed = number[:9] + str((int(number[9]) + by) % 10)
    assert is_nhs_number(number)
    assert not is_nhs_number(changed)


@given(valid_numbers(), st.lists(GAP, min_size=9, max_size=9), HEADING)
def test_any_number_in_any_spacing_is_refused_in_a_column_called_anything(number, gaps, heading):
    spaced = "".join(digit + gap for digit, gap in zip(number, [*gaps, ""], strict=True))
    # A point behind one or two digits and none else is how measures are written.
    assume("." not in gaps[:2] or any(gaps[2:]))
    # Noughts alone behind a point are how a spreadsheet writes a whole number.
    assume(not re.fullmatch(r"\d+\.0+", spaced))
    (found,) = found_in({heading: ["1", spaced]})
    assert "NHS" in found.message
    assert number not in found.message


@pytest.mark.parametrize(
    "text",
    ["12 943 476 5919", "NHS9434765919", "no 9434765919, well", "943,476,5919", "(943) 476-5919"],
)
def test_a_number_is_seen_among_others(text):
    assert holds_nhs_number(text)


@pytest.mark.parametrize("text", ["19434765919", "94347659190", "0.123456789", "day 9 of 43"])
def test_other_digits_are_not_one(text):
    assert not holds_nhs_number(text)
