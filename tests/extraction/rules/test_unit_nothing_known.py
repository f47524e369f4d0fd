"""A group of which nothing is known is told."""

from evsyn.terms import Severity

BRIDGE = "perforation: {events: 0, total: 8, of: attempted, window: 30_days}"


def test_a_count_without_a_known_outcome_is_a_doubt(tiny):
    tiny.unit(BRIDGE, BRIDGE.replace("total: 8", "total: 8, unknown: 8"))
    (found,) = tiny.found_in_unit("unit-nothing-known")
    assert found.severity is Severity.DOUBT
    assert "none of the 8 outcomes is known" in found.message


def test_one_known_outcome_is_a_count(tiny):
    tiny.unit(BRIDGE, BRIDGE.replace("total: 8", "total: 8, unknown: 7"))
    assert tiny.found_in_unit("unit-nothing-known") == []
