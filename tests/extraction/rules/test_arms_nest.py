"""An arm may lie inside another; the nesting must be possible."""

import pytest

ONE, TWO = "  - arm: palliation\n", "  - arm: bridge\n"


def messages(tiny):
    return [one.message for one in tiny.found("arms-nest")]


def test_a_part_inside_a_larger_arm(tiny):
    tiny.sedge(TWO, f"{TWO}    part_of: palliation\n")
    assert messages(tiny) == []


def test_a_part_inside_the_whole_study(tiny):
    tiny.sedge(ONE, f"  - {{arm: all, covers: whole_study, patients: 55}}\n{ONE}    part_of: all\n")
    assert messages(tiny) == []


def test_a_part_as_large_as_the_whole(tiny):
    tiny.sedge(TWO, f"{TWO}    part_of: palliation\n").sedge("patients: 25", "patients: 30")
    assert messages(tiny) == []


def test_a_part_larger_than_the_whole(tiny):
    tiny.sedge(ONE, f"{ONE}    part_of: bridge\n")
    assert messages(tiny) == ["a part of 30 patients lies inside an arm of 25"]


def test_an_unknown_arm_with_the_nearest_known(tiny):
    tiny.sedge(TWO, f"{TWO}    part_of: paliation\n")
    (finding,) = tiny.found("arms-nest")
    assert finding.message == "'paliation' is not an arm of this study"
    assert finding.cure == "Did you mean 'palliation'?"


def test_two_whole_studies(tiny):
    for arm in (ONE, TWO):
        tiny.sedge(arm, f"{arm}    covers: whole_study\n")
    assert messages(tiny) == ["two arms both cover the whole study"]


def test_a_whole_study_inside_an_arm(tiny):
    tiny.sedge(TWO, f"{TWO}    covers: whole_study\n    part_of: palliation\n")
    assert messages(tiny) == ["an arm that covers the whole study is part of another"]


@pytest.mark.parametrize("parent", ["palliation", "bridge"])
def test_a_circle(tiny, parent):
    tiny.sedge(ONE, f"{ONE}    part_of: {parent}\n").sedge(TWO, f"{TWO}    part_of: palliation\n")
    assert "the arms lie inside one another in a circle" in messages(tiny)
