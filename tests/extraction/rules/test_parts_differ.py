"""A whole-study count and the sum of its parts should agree."""

import pytest

WHOLE = """\
  - arm: all
    covers: whole_study
    patients: 55
    outcomes:
      perforation: {events: 3, total: 55, of: attempted, window: 30_days, at: abstract}
"""


@pytest.fixture(params=["named", "implied"])
def parted(tiny, request):
    """A whole study of two parts, which name it or need not."""
    tiny.sedge("arms:\n", f"arms:\n{WHOLE}")
    if request.param == "named":
        for arm in ("palliation", "bridge"):
            tiny.sedge(f"  - arm: {arm}\n", f"  - arm: {arm}\n    part_of: all\n")
    return tiny


def test_parts_that_meet_the_whole(parted):
    assert parted.found() == []


@pytest.mark.parametrize(
    ("new", "told"),
    [("events: 4, total: 55", "4 of 55"), ("events: 3, total: 54", "3 of 54")],
)
def test_parts_that_do_not(parted, new, told):
    (finding,) = parted.sedge("events: 3, total: 55", new).found("parts-differ")
    assert finding.message == f"the arm counts {told}, its parts 3 of 55"
    assert finding.source.key_path == "all.perforation"


def test_parts_that_are_not_all_of_the_whole(parted):
    parted.sedge("patients: 55", "patients: 56").sedge(
        "events: 3, total: 55", "events: 9, total: 55"
    )
    assert parted.found("parts-differ") == []


def test_another_window_is_not_compared(parted):
    parted.sedge("events: 3, total: 55, of: attempted, window: 30_days",
                 "events: 9, total: 55, of: attempted, window: not_stated")  # fmt: skip
    assert parted.found("parts-differ") == []


def test_separate_arms_without_a_whole(tiny):
    assert tiny.found("parts-differ") == []
