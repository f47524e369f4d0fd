"""Which counts of which studies feed one pool, sentence by sentence of the rule."""

import pytest

from evsyn.cells.cell import Mark
from tests.cells.builders import arm, count, rows, study_of, table_of, whole

PALLIATION, BRIDGE, UNPLACED = (
    ("intent", "palliation"), ("intent", "bridge"), ("intent", "mixed_or_not_stated"),
)  # fmt: skip


def labelled(name, patients, leak, level, **more):
    return arm(name, patients, leak, strata={"intent": level}, **more)


TWO_LEVELS = study_of(
    "a",
    whole(100, (9, 100), strata={"intent": "mixed"}),
    labelled("p1", 40, (3, 40), "palliation", part_of="whole"),
    labelled("p2", 20, (2, 20), "palliation", part_of="whole"),
    labelled("b", 40, (4, 40), "bridge", part_of="whole"),
)


def marks(table, study="a"):
    return next(cell.marks for cell in table.cells if cell.study == study)


def test_a_named_level_sums_the_separate_arms_of_exactly_that_level():
    table = table_of(TWO_LEVELS, at=PALLIATION)
    assert rows(table) == {"a": (5, 60)}
    assert marks(table) == {Mark.SUMMED}
    assert len(table.cells[0].sources) == 2
    assert rows(table_of(TWO_LEVELS, at=BRIDGE)) == {"a": (4, 40)}


def test_mixed_and_not_stated_never_enter_a_named_level():
    study = study_of(
        "a",
        labelled("x", 30, (1, 30), "mixed"),
        labelled("y", 9, (1, 9), "not_stated"),
        arm("z", 8, (2, 8)),
    )
    assert rows(table_of(study, at=PALLIATION)) == {}
    assert rows(table_of(study, at=UNPLACED)) == {"a": (4, 47)}


def test_a_parent_never_enters_beside_its_part():
    study = study_of(
        "a",
        labelled("x", 30, (5, 30), "palliation"),
        labelled("x1", 10, (2, 10), "palliation", part_of="x"),
        labelled("y", 12, (1, 12), "palliation"),
    )
    assert rows(table_of(study, at=PALLIATION)) == {"a": (6, 42)}
    assert rows(table_of(study)) == {"a": (6, 42)}


def test_a_part_enters_where_its_parent_does_not_report():
    study = study_of(
        "a",
        labelled("x", 30, None, "palliation"),
        labelled("x1", 10, (2, 10), "palliation", part_of="x"),
    )
    table = table_of(study, at=PALLIATION)
    assert rows(table) == {"a": (2, 10)}
    assert marks(table) == {Mark.PARTIAL}


def test_the_whole_study_count_goes_before_the_sum_of_arms():
    table = table_of(TWO_LEVELS)
    assert rows(table) == {"a": (9, 100)}
    assert marks(table) == set()


def test_the_whole_study_count_is_used_even_where_the_parts_differ():
    study = study_of("a", whole(100, (9, 100)), arm("x", 60, (3, 60)), arm("y", 40, (3, 40)))
    assert rows(table_of(study)) == {"a": (9, 100)}


def test_without_a_whole_study_count_the_arms_are_summed():
    study = study_of("a", whole(100), arm("x", 60, (3, 60)), arm("y", 40, (3, 40)))
    table = table_of(study)
    assert rows(table) == {"a": (6, 100)}
    assert marks(table) == {Mark.SUMMED}


@pytest.mark.parametrize("beside", [[whole(100)], []])
def test_a_row_without_all_arms_is_partial(beside):
    study = study_of("a", *beside, arm("x", 60, (3, 60)), arm("y", 40))
    table = table_of(study)
    assert rows(table) == {"a": (3, 60)}
    assert marks(table) == {Mark.PARTIAL}


def test_a_level_whose_other_arm_does_not_report_is_partial():
    study = study_of(
        "a",
        labelled("x", 60, (3, 60), "palliation"),
        labelled("y", 40, None, "palliation"),
        labelled("z", 9, None, "bridge"),
    )
    assert marks(table_of(study, at=PALLIATION)) == {Mark.PARTIAL}


def test_an_arm_of_another_level_does_not_make_a_level_partial():
    study = study_of(
        "a", labelled("x", 60, (3, 60), "palliation"), labelled("z", 9, None, "bridge")
    )
    assert marks(table_of(study, at=PALLIATION)) == set()


@pytest.mark.parametrize(
    "other",
    [count(5, 50, "placed"), count(5, 50, "attempted", "1_year"),
     count(5, 50, "attempted", "not_stated"), count(5, 50, counted_by="procedure")],
)  # fmt: skip
def test_arms_on_different_bases_windows_or_units_are_not_summed(other):
    study = study_of("a", arm("x", 60, (3, 60)), arm("y", 50, other))
    table = table_of(study)
    assert rows(table) == {"a": (3, 60)}
    assert marks(table) == {Mark.PARTIAL}
    (left,) = table.left_out
    assert (left.events, left.total) == (5, 50)
    assert left.reason.startswith("on another basis or window")


def test_the_target_goes_before_a_larger_count():
    study = study_of("a", arm("x", 10, (1, 10)), arm("y", 50, count(5, 50, "placed")))
    assert rows(table_of(study)) == {"a": (1, 10)}


def test_arms_on_one_accepted_basis_are_summed_and_marked():
    study = study_of(
        "a", arm("x", 60, count(3, 55, "placed")), arm("y", 50, count(5, 48, "placed"))
    )
    table = table_of(study)
    assert rows(table) == {"a": (8, 103)}
    assert marks(table) == {Mark.SUMMED, Mark.OTHER_BASIS}
    assert (table.cells[0].basis, table.cells[0].window) == ("placed", "30_days")


def test_a_count_the_plan_does_not_accept_is_listed():
    table = table_of(study_of("a", arm("x", 60, count(3, 40, "resected"))))
    assert table.cells == ()
    (left,) = table.left_out
    assert (left.study, left.label, left.source.key_path) == ("a", "A 2010", "x.leak")
    assert left.reason == "counted over patients resected, which the plan does not accept"


def test_a_whole_study_count_that_is_refused_gives_way_to_its_arms():
    study = study_of("a", whole(100, count(9, 80, "resected")), arm("x", 60, (3, 60)),
                     arm("y", 40, (3, 40)))  # fmt: skip
    table = table_of(study)
    assert rows(table) == {"a": (6, 100)}
    assert len(table.left_out) == 1


def test_a_mixed_arm_is_not_gathered_when_its_parts_enter_named_levels():
    assert rows(table_of(TWO_LEVELS, at=UNPLACED)) == {}


def test_a_mixed_arm_is_gathered_when_its_parts_do_not_report():
    study = study_of(
        "a",
        whole(100, (9, 100), strata={"intent": "mixed"}),
        labelled("p", 60, None, "palliation"),
        labelled("b", 40, None, "bridge"),
    )
    assert rows(table_of(study, at=UNPLACED)) == {"a": (9, 100)}


def test_a_part_not_stated_is_gathered_when_the_whole_is_told_by_the_others():
    study = study_of("a", whole(100, (9, 100)), labelled("p", 60, (4, 60), "palliation"),
                     labelled("u", 40, (5, 40), "not_stated"))  # fmt: skip
    table = table_of(study, at=UNPLACED)
    assert rows(table) == {"a": (5, 40)}


def test_an_unlabelled_part_of_a_named_arm_is_in_one_level_only():
    study = study_of("a", labelled("p", 60, (4, 60), "palliation"),
                     arm("long", 20, (1, 20), part_of="p"))  # fmt: skip
    assert rows(table_of(study, at=PALLIATION)) == {"a": (4, 60)}
    assert rows(table_of(study, at=UNPLACED)) == {}


def test_arms_that_cross_are_not_summed_and_listed():
    study = study_of("a", whole(20), labelled("b", 12, (1, 12), "bridge"),
                     labelled("p", 8, (1, 8), "palliation"),
                     arm("covered", 7, (2, 7), strata={"device": "beside"}))  # fmt: skip
    table = table_of(study)
    assert rows(table) == {"a": (2, 20)}
    (left,) = table.left_out
    assert left.reason == "may hold the same patients as the arms of this study that are pooled"


@pytest.mark.parametrize(
    ("level", "cut", "expected"),
    [("before_2005", None, {"old", "early"}), ("from_2005", None, {"new"}),
     ("mixed_or_not_stated", None, {"undated"}), ("before_2003", 2003, {"old", "early"}),
     ("from_2012", 2012, set()), ("before_2012", 2012, {"old", "early", "new"})],
)  # fmt: skip
def test_the_era_of_each_study(level, cut, expected):
    studies = (
        study_of("old", arm("x", 9, (1, 9)), recruited={"from": "1990", "to": "1999"}),
        study_of("new", arm("x", 9, (1, 9)), recruited={"from": "2006", "to": "2009"}),
        study_of("early", arm("x", 9, (1, 9)), year=2000),
        study_of("undated", arm("x", 9, (1, 9)), year=2015),
    )
    assert set(rows(table_of(*studies, at=("era", level), cut_year=cut))) == expected


def test_a_study_enters_an_era_once_with_its_overall_row():
    study = study_of("a", whole(100, (9, 100)), arm("x", 60, (3, 60)), year=2000)
    assert rows(table_of(study, at=("era", "before_2005"))) == {"a": (9, 100)}


def test_a_units_own_series_is_left_out_and_listed():
    studies = study_of("a", arm("x", 9, (1, 9))), study_of("b", arm("x", 8, (1, 8)))
    table = table_of(*studies, without=["a"])
    assert rows(table) == {"b": (1, 8)}
    (left,) = table.left_out
    assert (left.study, left.reason) == ("a", "the unit's own series")


def test_a_study_that_does_not_report_is_neither_pooled_nor_listed():
    table = table_of(study_of("a", arm("x", 9)))
    assert (table.cells, table.left_out) == ((), ())


def test_a_row_carries_every_place_it_came_from():
    (cell,) = table_of(TWO_LEVELS, at=PALLIATION).cells
    assert [source.key_path for source in cell.sources] == ["p1.leak", "p2.leak"]
    assert {source.file for source in cell.sources} == {"a.yaml"}
    assert (cell.label, cell.year) == ("A 2010", 2010)
