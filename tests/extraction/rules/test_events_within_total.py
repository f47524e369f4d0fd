"""There cannot be more events than the total."""

from evsyn.terms import Severity


def test_more_events_than_the_total(tiny):
    (finding,) = tiny.sedge("events: 2, total: 30", "events: 31, total: 30").found(
        "events-within-total"
    )
    assert finding.message == "31 events of 30 cannot be"
    assert finding.severity is Severity.FAULT


def test_all_and_none_are_possible(tiny):
    tiny.sedge("events: 2, total: 30", "events: 30, total: 30")
    tiny.sedge("events: 1, total: 25", "events: 0, total: 25")
    assert tiny.found("events-within-total") == []
