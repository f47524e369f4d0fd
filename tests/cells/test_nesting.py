"""One study's arms are kept apart: no patient enters one pool twice."""

from evsyn.cells.acceptance import judge
from evsyn.cells.nesting import lacks_patients, topmost, without_crossing
from tests.cells.builders import arm, count, plan_of, study_of, table_of, whole


def accepted(study, *names):
    return [judge(study.arm_named(name), "leak", plan_of()) for name in names]


def names(items):
    return [item.arm.arm for item in items]


NESTED = study_of(
    "a", whole(20, (2, 20)), arm("x", 12, (1, 12)), arm("x1", 5, (0, 5), part_of="x"),
    arm("y", 8, (1, 8)),
)  # fmt: skip


def test_the_outermost_accepted_arms_stay():
    assert names(topmost(NESTED, accepted(NESTED, "whole", "x", "x1", "y"))) == ["whole"]
    assert names(topmost(NESTED, accepted(NESTED, "x", "x1", "y"))) == ["x", "y"]
    assert names(topmost(NESTED, accepted(NESTED, "x1", "y"))) == ["x1", "y"]


def test_arms_that_divide_a_study_in_two_ways_are_not_summed():
    study = study_of("a", whole(20), arm("bridge", 12, (1, 12)), arm("palliation", 8, (1, 8)),
                     arm("covered", 7, (2, 7)))  # fmt: skip
    kept, crossing = without_crossing(study, accepted(study, "covered", "bridge", "palliation"))
    assert (names(kept), names(crossing)) == (["bridge", "palliation"], ["covered"])


def test_arms_that_fill_their_whole_are_summed():
    study = study_of("a", whole(20), arm("x", 12, (1, 12)), arm("y", 8, (1, 8)))
    kept, crossing = without_crossing(study, accepted(study, "x", "y"))
    assert (names(kept), crossing) == (["x", "y"], [])


def test_without_a_whole_nothing_tells_that_arms_cross():
    study = study_of("a", arm("x", 12, (1, 12)), arm("y", 8, (1, 8)))
    assert names(without_crossing(study, accepted(study, "x", "y"))[0]) == ["x", "y"]


def lacks(study, *chosen, at=lambda arm: True):
    return lacks_patients(study, accepted(study, *chosen), at)


def test_when_patients_are_lacking():
    assert not lacks(NESTED, "whole")
    assert not lacks(NESTED, "x", "y")
    assert lacks(NESTED, "x")
    assert lacks(NESTED, "x1", "y")
    assert not lacks(NESTED, "x1", at=lambda arm: arm.arm == "x1")
    assert not lacks(NESTED, "x", at=lambda arm: arm.arm in ("x", "x1"))


def test_parts_that_do_not_fill_the_whole_lack_patients():
    study = study_of("a", whole(25), arm("x", 12, (1, 12)), arm("y", 8, (1, 8)))
    assert lacks(study, "x", "y")


def test_a_study_with_a_refused_arm_of_its_own_is_left_out_of_the_whole():
    """Else an arm without events would stand for a study that had some."""
    study = study_of(
        "a",
        arm("bridge", 12, (0, 12), strata={"intent": "bridge"}),
        arm("chosen", 9, count(2, 9, of="resected"), strata={"intent": "palliation"}),
    )
    table = table_of(study)
    assert table.cells == ()
    assert "another arm of this study counts it" in " ".join(i.reason for i in table.left_out)
    assert table_of(study, at=("intent", "bridge")).events == 0
    assert table_of(study, at=("intent", "bridge")).k == 1


def test_a_refused_part_of_an_accepted_arm_leaves_nothing_out():
    study = study_of(
        "a", whole(20, (2, 20)), arm("chosen", 9, count(2, 9, of="resected"), part_of="whole")
    )
    assert table_of(study).k == 1
