"""A period against the one before: golden sentences, and words that are never said."""

import pytest

from evsyn.audit.next_period import next_period
from evsyn.wording.next_period import next_period_sentences
from tests.audit.made_up import MU, answer, plan, reading
from tests.wording.test_audit import NEVER

PLAN = plan()


def said(earlier, later=None, made=None, outcome="perforation", **kinds):
    pool = answer() if made is None else made
    better = PLAN.outcomes[outcome].better
    return next_period_sentences(
        next_period(earlier, later, pool, better=better, **kinds), PLAN, outcome
    )


def test_two_periods_in_full():
    assert said((5, 20), (2, 25)) == (
        "The period before: 5 of 20 (25.0%; exact 95% interval 8.7% to 49.1%); drawn toward "
        "ordinary new units, since part of any count is chance: 15.5% (95% range 6.4% to 29.1%).",
        "If nothing changed, 20 further cases would show 3.1 perforations on average, and fewer "
        "than 5 with a chance of 77.9%, so a fall alone is no sign of change (regression to the "
        "mean).",
        "This period 2 of 25 (8.0%; exact 95% interval 1.0% to 26.0%) is within the range of 0 to "
        "9 that units with that past show in 25 cases if nothing changed (2 or fewer of 25: about "
        "3 in 10 such units); but with 25 cases only 10 or more would be called more (1.9% of such "
        "units) and no count could be called fewer, and twice the unit's own risk (31.0%) would be "
        "noticed with a chance of 22.1%.",
        "Of 100 units with that past, about 15 would see fewer, 16 as many and 69 more among 25 "
        "cases; their average is 3.9 perforations.",
    )


def test_one_period_alone_says_what_to_expect():
    lines = said((0, 20))
    assert len(lines) == 2
    assert lines[1] == (
        "If nothing changed, 20 further cases would show 1.1 perforations on average, and more "
        "than 0 with a chance of 63.2%, so a rise alone is no sign of change (regression to the "
        "mean)."
    )


def test_the_drawn_rate_never_stands_alone():
    for events in range(0, 21, 5):
        (line,) = [line for line in said((events, 20), (3, 20)) if "drawn toward" in line]
        assert line.startswith(f"The period before: {events} of 20 ({5 * events:.1f}%; exact 95%")


def test_a_rise_is_looked_at():
    line = said((0, 20), (6, 20))[2]
    assert "is more than the range of 0 to 4 that units with that past show in 20 cases" in line
    assert (
        "; look at the cases; with 20 cases any count of 5 or more is called so (1.2% of such "
        "units) and no count could be called fewer, and twice the unit's own risk (11.0%) would be "
        "noticed with a chance of 6.2%, because units with that past already differ by more than "
        "that."
    ) in line


def test_a_fall_is_checked_before_it_is_enjoyed():
    line = said((30, 40), (0, 40))[2]
    assert "is fewer than the range of 17 to 33" in line
    assert "check ascertainment and denominator first" in line
    assert "a unit where now 95.0% of cases go the unwelcome way would be noticed" in line


def test_falling_short():
    often = answer(12, reading(-MU, k=12), events=46)
    line = said((18, 20), (10, 20), often, "success")[2]
    assert "is fewer than the range of 15 to 20" in line
    assert "look at the cases" in line
    assert "falling short twice as often as the unit's own rate implies (17.6%)" in line


@pytest.mark.parametrize(
    ("kinds", "told"),
    [
        ({"made": answer(4)}, "No verdict, since so few studies cannot tell how far units differ;"),
        ({"more": False}, "No verdict, since the windows differ and could explain what is seen:"),
    ],
)
def test_without_a_verdict(kinds, told):
    line = said((0, 20), (6, 20), **kinds)[2]
    assert line.startswith(told)
    assert "6 of 20 (30.0%; exact 95% interval 11.9% to 54.3%) beside the range of" in line


def test_a_risk_that_cannot_be_doubled():
    line = said((20, 20), (5, 5), answer(12, reading(4.0, k=12)))[2]
    assert line.endswith("and the unit's own risk is too high to be doubled.")


@pytest.mark.parametrize("earlier", [0, 7, 20])
@pytest.mark.parametrize("later", [0, 9, 25])
def test_what_is_never_said(earlier, later):
    for made in (answer(), answer(4), answer(7)):
        lines = " ".join(said((earlier, 20), (later, 25), made))
        assert not NEVER.search(lines)
