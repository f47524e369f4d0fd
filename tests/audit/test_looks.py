"""The more one looks, the likelier it is that something is outside by chance."""

import math

import pytest

from evsyn.audit.looks import chance_of_any


@pytest.mark.parametrize(
    ("made", "tail", "printed"),
    [
        # Bland JM, Altman DG. BMJ 1995;310:170 (from memory): of 20 independent tests at 5% at
        # least one is significant with a chance of 1 - 0.95^20 = 0.64. The others by the same form.
        (20, 0.05, "64"),
        (12, 0.05, "46"),
        (6, 0.05, "26"),
        (3, 0.05, "14"),
        (20, 0.002, "3.9"),
        (12, 0.002, "2.4"),
        (6, 0.002, "1.2"),
        (3, 0.002, "0.6"),
    ],
)
def test_as_many_looks_at_one_chance_give_the_closed_form(made, tail, printed):
    found = chance_of_any([tail] * made)
    assert found == pytest.approx(1 - (1 - tail) ** made, rel=1e-12)
    assert 100 * found == pytest.approx(float(printed), abs=0.5 * 10 ** -len(printed[2:]))


def test_chances_that_differ_multiply_and_no_look_finds_nothing():
    tails = [0.013, 0.02, 0.0, 0.049, 1e-12]
    assert chance_of_any(tails) == pytest.approx(1 - math.prod(1 - tail for tail in tails))
    assert chance_of_any(reversed(tails)) == pytest.approx(chance_of_any(tails), rel=1e-12)
    # It is never more than the chances added up (Boole).
    assert chance_of_any(tails) < sum(tails)
    assert chance_of_any([]) == 0
    assert chance_of_any([1e-17]) == pytest.approx(1e-17)
