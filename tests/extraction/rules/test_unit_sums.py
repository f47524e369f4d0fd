"""A unit's own figures must hold together."""

import pytest

from evsyn.terms import Severity


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("events: 0, total: 8", "events: 9, total: 8", "9 events of 8 cannot be"),
        ("placed: 19", "placed: 21", "21 placed after 20 attempted"),
        ("{attempted: 20,", "{attempted: 21,",
         "perforation: the groups' attempted sum to 20, the flow says 21"),
        ("left_out:\n  - {count: 1, why: notes not found}\n", "",
         "the figures are not complete and no case is listed as left out"),
    ],
)  # fmt: skip
def test_sums_that_do_not_meet(tiny, old, new, message):
    (finding,) = tiny.unit(old, new).found_in_unit("unit-sums")
    assert (finding.message, finding.severity) == (message, Severity.FAULT)


def test_a_total_above_the_group(tiny):
    found = tiny.unit("events: 0, total: 8", "events: 0, total: 9").found_in_unit("unit-sums")
    assert "a total of 9 in a group of 8 patients" in [one.message for one in found]


def test_procedures_may_be_more_than_patients(tiny):
    tiny.unit("counted_by: patient", "counted_by: procedure").unit(
        "{attempted: 20, placed: 19}", "{}"
    )
    assert tiny.unit("events: 0, total: 8", "events: 0, total: 9").found_in_unit() == []


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("placed: 19", "placed: 20"),
        ("flow: {attempted: 20, placed: 19}\n", ""),
        ("complete: false\nleft_out:\n  - {count: 1, why: notes not found}\n", "complete: true\n"),
        ("events: 0, total: 8, of: attempted", "events: 0, total: 7, of: placed"),
    ],
)
def test_sums_that_meet_or_cannot_be_compared(tiny, old, new):
    assert tiny.unit(old, new).found_in_unit("unit-sums") == []
