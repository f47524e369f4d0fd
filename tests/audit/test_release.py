"""What is told of a count outside: small ones hidden, others rounded, and none given back."""

import pytest

from evsyn.audit.release import LEAST_POSSIBLE, Told, released, rounded


# NHS Digital, disclosure control for hospital episode statistics from September 2018: counts of
# 1 to 7 hidden (read); noughts told and the rest rounded to 5 (from memory).
@pytest.mark.parametrize(
    ("events", "told", "shown"),
    [
        (0, Told.EXACT, 0),
        (1, Told.HIDDEN, None),
        (4, Told.HIDDEN, None),
        (7, Told.HIDDEN, None),
        (8, Told.ROUNDED, 10),
        (11, Told.ROUNDED, 10),
        (12, Told.ROUNDED, 10),
        (13, Told.ROUNDED, 15),
        (18, Told.ROUNDED, 20),
    ],
)
def test_the_published_rule(events, told, shown):
    found = released(events, 200)
    assert (found.told, found.shown) == (told, shown)


def test_a_small_number_without_the_event_hides_the_count_too():
    assert released(39, 41).told is Told.HIDDEN
    assert released(39, 41).possible == tuple(range(33, 41))


def test_none_and_all_are_told():
    assert released(0, 41).shown == 0
    assert released(41, 41).shown == 41


def test_nothing_is_told_of_very_few_cases():
    assert {released(x, 7).told for x in range(8)} == {Told.WITHHELD}


def test_a_person_may_release_exact_counts():
    assert released(3, 41, exact=True).possible == (3,)


def test_a_count_must_be_one_of_the_total():
    with pytest.raises(ValueError, match="between 0 and 4"):
        released(5, 4)


@pytest.mark.parametrize("total", [*range(8, 80), 199, 200, 201, 202, 203])
def test_no_hidden_or_rounded_count_is_one_of_fewer_than_three(total):
    for events in range(1, total):
        found = released(events, total)
        assert events in found.possible
        assert len(found.possible) >= LEAST_POSSIBLE
        # All that look alike are told alike, so the telling itself gives nothing away.
        assert {released(x, total) for x in found.possible} == {found}


@pytest.mark.parametrize("number", range(40))
def test_cases_are_rounded_as_counts_are(number):
    found = rounded(number)
    if 1 <= number <= 7:
        assert found is None
    else:
        assert found % 5 == 0
        assert abs(found - number) <= 2
