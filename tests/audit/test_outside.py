"""What of a whole count may leave the unit: nothing that depends on a hidden count.

What is told of a count is the house's own choice (decision 21), held here to its own words; the
exact limits are held against the closed forms of Clopper and Pearson (Biometrika 1934;26:404-413).
"""

from dataclasses import replace
from pathlib import Path

import pytest

from evsyn.audit.outside import outside_count, shared_verdict, wholes
from evsyn.audit.release import Told
from evsyn.audit.standing import standings
from evsyn.audit.verdict import Limits, Verdict, verdict_at
from evsyn.extraction.load import read_review
from evsyn.extraction.unit import Unit

PLAN = read_review(Path(__file__).parents[2] / "studies" / "demo").plan
#: Of 41 ordinary cases 0 to 9 show the event; more from 10.
REACH = Limits(first_more=10, last_fewer=None, chance_more=0.02, chance_fewer=0.0, low=0, high=9)


def whole(events, total, *, unknown=0, of="attempted", window="30_days", followed=None):
    """Return a unit's whole count of perforations; ``total`` holds the unknown ones."""
    count = {"events": events, "total": total, "unknown": unknown, "of": of, "window": window}
    group = {
        "strata": {"intent": "palliation"},
        "patients": max(total, 1),
        "outcomes": {"perforation": count},
    }
    fields = {
        "format": 1,
        "unit": "glade",
        "label": "Glade General",
        "invented": True,
        "period": {"from": "2022-04", "to": "2025-03"},
        "frozen_on": "2025-06-30",
        "complete": True,
        "follow_up": "at least 90 days",
        "followed": followed,
        "counted_by": "patient",
        "expected_cases": {"count": total, "according_to": "devices issued"},
        "groups": [group],
    }
    (found,) = wholes(standings(Unit.model_validate(fields, strict=False), {}, PLAN))
    return found


def test_of_no_event_the_exact_limits_are_told():
    told = outside_count(whole(0, 41), 41, REACH)
    assert told.count.is_exact
    # 1 - 0.025 ** (1 / 41) and 1 - 0.05 ** (1 / 41), the closed forms for no event.
    assert told.interval.high == pytest.approx(1 - 0.025 ** (1 / 41))
    assert told.one_sided == pytest.approx(1 - 0.05 ** (1 / 41))
    assert told.verdict is Verdict.WITHIN


def test_of_all_the_exact_limits_are_told():
    told = outside_count(whole(41, 41), 41, REACH)
    assert told.interval.low == pytest.approx(0.025 ** (1 / 41))
    assert told.one_sided == pytest.approx(0.05 ** (1 / 41))
    assert told.verdict is Verdict.MORE


@pytest.mark.parametrize("events", range(1, 41))
def test_all_told_alike_are_told_the_very_same(events):
    told = outside_count(whole(events, 41), 41, REACH)
    assert told.interval is None
    assert told.one_sided is None
    for other in told.count.possible:
        assert outside_count(whole(other, 41), 41, REACH) == told


def test_a_verdict_is_told_only_where_every_possible_count_gets_it():
    few = outside_count(whole(2, 41), 41, REACH)
    assert few.verdict is Verdict.WITHIN
    # 8 to 12 would be rounded alike, and 10 to 12 of them lie beyond the range.
    assert outside_count(whole(9, 41), 41, REACH).verdict is None
    assert outside_count(whole(20, 41), 41, REACH).verdict is Verdict.MORE


def test_a_shared_verdict_is_that_of_each_count():
    for possible in ((0, 4, 9), (9, 10), (10, 11, 12)):
        each = {verdict_at(REACH, events) for events in possible}
        shared = shared_verdict(possible, REACH)
        assert shared in each if len(each) == 1 else shared is None


def test_a_denominator_that_is_itself_a_count_is_withheld():
    told = outside_count(whole(2, 39, of="placed"), 41, REACH)
    assert told.count.told is Told.WITHHELD
    assert told == outside_count(whole(9, 38, of="placed"), 41, REACH)
    assert told.limits is None
    assert told.verdict is None


def test_unknown_outcomes_are_cases_all_the_same_and_bring_no_share():
    told = outside_count(whole(0, 41, unknown=3), 41, REACH)
    assert told.count.shown == 0
    assert told.count.total == 41
    assert not told.is_complete
    assert told.interval is None
    assert told.one_sided is None
    assert told.verdict is None
    # Of how many the outcome is not known would narrow a count near all of them, so it is not told.
    assert told == outside_count(whole(0, 41, unknown=11), 41, REACH)


def test_a_late_event_without_follow_up_is_a_count_and_no_share():
    told = outside_count(whole(0, 41, window="follow_up"), 41, None)
    assert told.count.is_exact
    assert told.interval is None
    followed = {"least_days": 90, "median_months": 8}
    known = outside_count(whole(0, 41, window="follow_up", followed=followed), 41, None)
    assert known.followed_months == 8
    assert known.interval is not None


def test_levels_are_no_wholes():
    level = replace(whole(2, 41), stratum="intent", level="palliation")
    assert wholes([level, whole(2, 41)]) == (whole(2, 41),)
