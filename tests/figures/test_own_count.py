"""How far a unit's own count is told."""

import pytest

from evsyn.audit.release import released
from evsyn.figures.own_count import OwnCount


def test_a_count_is_told_exactly_as_one_of_several_or_not_at_all() -> None:
    assert OwnCount.exact(3, 27).is_exact
    several = OwnCount.one_of((12, 8, 9, 10, 11, 8), 40)
    assert several.possible == (8, 9, 10, 11, 12)
    assert not several.is_exact
    assert not several.is_withheld
    assert OwnCount.withheld(27).is_withheld
    assert OwnCount.withheld().total is None


@pytest.mark.parametrize(
    ("possible", "total"), [((28,), 27), ((-1, 2), 27), ((1,), None), ((2, 1), 27), ((), 0)]
)
def test_what_cannot_be_is_refused(possible, total) -> None:
    with pytest.raises(ValueError, match="count"):
        OwnCount(possible, total)


def test_counts_told_alike_outside_are_the_same_own_count() -> None:
    for total in (20, 41, 60):
        told = [OwnCount.released(released(x, total)) for x in range(total + 1)]
        for x, own in enumerate(told):
            assert all(told[y] == own for y in own.possible)
            assert x in own.possible


def test_a_small_total_is_not_told_either() -> None:
    assert OwnCount.released(released(1, 6)) == OwnCount.withheld()
