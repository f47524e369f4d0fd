"""Unknown outcomes: the count at its best and at its worst."""

import pytest

from evsyn.audit.reasons import Caveat, Reason
from evsyn.audit.standing import standings
from evsyn.audit.verdict import Verdict
from evsyn.wording.audit import standing_sentences
from tests.audit.made_up import PALLIATION, answer, count, group, plan, pooled, unit

PLAN = plan()


def one(events, total, unknown, outcome="perforation", window="30_days", made=None, **fields):
    counted = {**count(events, total, window=window), "unknown": unknown}
    mine = unit(group(total, {outcome: counted}, intent="palliation"), **fields)
    question = PALLIATION if outcome == "perforation" else None
    tables = {PALLIATION: pooled(PALLIATION, made, windows=[window] * 30)} if question else {}
    return standings(mine, tables, PLAN)[0]


def test_known_cases_are_the_count():
    found = one(3, 27, 2)
    assert (found.events, found.total, found.unknown) == (3, 25, 2)


def test_a_harm_is_best_without_and_worst_with_the_unknown():
    found = one(3, 27, 2).extremes
    assert (found.best.events, found.best.total) == (3, 27)
    assert (found.worst.events, found.worst.total) == (5, 27)


def test_a_success_is_best_with_them():
    found = one(20, 27, 2, outcome="success", window="at_procedure").extremes
    assert found.best.events == 22
    assert found.worst.events == 20
    assert found.best.verdict is Verdict.NONE


def test_an_unknown_outcome_may_change_the_verdict():
    found = one(3, 8, 1)
    assert found.extremes.best.verdict is Verdict.WITHIN
    assert found.extremes.worst.verdict is Verdict.MORE
    assert (
        "1 further case has no known outcome: at best 3 of 8 (37.5%; 8.5% to 75.5%), within the "
        "range; at worst 4 of 8 (50.0%; 15.7% to 84.3%), more than the range. What is not known "
        "could change the verdict, so find it out first."
    ) in standing_sentences(found, PLAN)


def test_nothing_is_said_where_all_is_known():
    found = one(3, 27, 0)
    assert found.extremes is None
    assert not any("no known outcome" in said for said in standing_sentences(found, PLAN))


def test_strata_and_the_whole_hold_their_own_unknown_cases():
    groups = [
        group(10, {"perforation": {**count(1, 10), "unknown": 2}}, intent="palliation"),
        group(12, {"perforation": {**count(0, 12), "unknown": 1}}, intent="bridge"),
    ]
    found = {s.level: s for s in standings(unit(*groups), {}, PLAN)}
    assert found["palliation"].extremes.worst.events == 3
    assert found["bridge"].extremes.worst.events == 1
    assert found["overall"].extremes.worst.events == 4
    assert found["overall"].total == 19


def test_a_level_of_which_nothing_is_known_gives_no_count():
    nothing = {**count(0, 2), "unknown": 2}
    some = {**count(1, 10)}
    made = unit(
        group(2, {"perforation": nothing}, intent="palliation"),
        group(10, {"perforation": some}, intent="bridge"),
    )
    found = {s.level: s for s in standings(made, {}, PLAN)}
    assert "palliation" not in found
    assert (found["overall"].total, found["overall"].unknown) == (10, 2)


# A late event as a share needs the length of follow-up: a rule of the trade (common practice, no
# source); reporting guidance for case series asks for it.
def test_a_late_event_without_follow_up_is_no_share():
    found = one(3, 27, 0, window="follow_up")
    assert found.reason is Reason.NO_FOLLOW_UP
    assert found.interval is None
    assert found.comparison is None
    lines = standing_sentences(found, PLAN)
    assert lines[0] == (
        "Perforation, palliation: 3 of 27 patients in whom it was attempted, up to the last "
        "follow-up."
    )
    assert not any("%" in line for line in lines)
    assert "median_months" in lines[1]


def test_with_follow_up_it_is_one():
    found = one(3, 27, 0, window="follow_up", followed={"median_months": 8.0}, made=answer())
    assert found.reason is None
    assert (
        "up to the last follow-up (median 8 months) (11.1%)" in standing_sentences(found, PLAN)[0]
    )


@pytest.mark.parametrize(("least", "told"), [(20, True), (30, False), (90, False)])
def test_cases_followed_for_less_than_the_window_are_told(least, told):
    found = one(3, 27, 0, followed={"least_days": least})
    assert (Caveat.FOLLOWED_SHORTER in found.caveats) is told
