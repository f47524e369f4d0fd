"""A unit's own figures: what is read and what is refused."""

import pytest

from evsyn.terms import CountedBy


def test_what_is_read(tiny):
    unit = tiny.read_unit().unit
    assert (unit.label, unit.period.from_, unit.period.to) == (
        "Glade General",
        "2022-04",
        "2025-03",
    )
    assert unit.counted_by is CountedBy.PATIENT
    assert unit.expected_cases.count == 21
    assert [one.count for one in unit.left_out] == [1]
    assert unit.flow == {"attempted": 20, "placed": 19}
    assert [group.patients for group in unit.groups] == [12, 8]


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("frozen_on: 2025-06-30\n", "", "'frozen_on' is missing"),
        ("complete: false", "complete: no", "'complete' must be true or false, and is 'no'"),
        ("counted_by: patient", "counted_by: person", "'counted_by' is 'person', which is not a"),
        ("count: 21", "count: 0", "'count' is '0', and must be at least 1"),
        ("placed: 19", "placed: -1", "'placed' is '-1', and must be at least 0"),
        ("events: 1, total: 12", "events: 1, total: 0", "'total' is '0', and must be at least 1"),
        ("    patients: 12\n", "", "'patients' is missing"),
        ("events: 0, total: 8", "events: 0.5, total: 8", "'events' must be a whole number"),
        ("follow_up: at least 90 days\n", "", "'follow_up' is missing"),
    ],
)
def test_refusals(tiny, old, new, message):
    (finding,) = tiny.unit(old, new).found_in_unit()
    assert finding.message.startswith(message)
