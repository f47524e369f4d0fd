"""Counts at one level of each of several strata: in one crossing each, and no patient in two."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evsyn.cells.cell import Mark
from evsyn.cells.levels import ancestors, level_names
from tests.cells.builders import arm, count, overlap, plan_of, rows, study_of, table_of, whole

UNPLACED = "mixed_or_not_stated"


def crossed(device, intent):
    return "device", device, (("intent", intent),)


CROSSINGS = [
    crossed(device, intent)
    for device in level_names(plan_of().strata["device"])
    for intent in level_names(plan_of().strata["intent"])
]


def labelled(name, patients, leak, device=None, intent=None, **more):
    strata = {"device": device, "intent": intent}
    strata = {stratum: level for stratum, level in strata.items() if level}
    return arm(name, patients, leak, strata=strata, **more)


def held(*studies):
    """Return the rows at every crossing that has any."""
    tables = {(d, i): rows(table_of(*studies, at=crossed(d, i))) for _, d, ((_, i),) in CROSSINGS}
    return {at: found for at, found in tables.items() if found}


def test_a_crossing_takes_the_arms_of_exactly_both_levels():
    study = study_of(
        "a",
        labelled("tp1", 40, (3, 40), "through", "palliation"),
        labelled("tp2", 20, (2, 20), "through", "palliation"),
        labelled("tb", 30, (1, 30), "through", "bridge"),
        labelled("bp", 9, (1, 9), "beside", "palliation"),
    )
    assert held(study) == {
        ("through", "palliation"): {"a": (5, 60)},
        ("through", "bridge"): {"a": (1, 30)},
        ("beside", "palliation"): {"a": (1, 9)},
    }
    (cell,) = table_of(study, at=crossed("through", "palliation")).cells
    assert cell.marks == {Mark.SUMMED}


def test_an_arm_unlabelled_in_one_stratum_gathers_there():
    study = study_of(
        "a",
        labelled("t", 40, (3, 40), "through"),
        labelled("p", 20, (2, 20), None, "palliation"),
        labelled("m", 8, (1, 8), "mixed", "bridge"),
        labelled("n", 5, (0, 5)),
    )
    assert held(study) == {
        ("through", UNPLACED): {"a": (3, 40)},
        (UNPLACED, "palliation"): {"a": (2, 20)},
        (UNPLACED, "bridge"): {"a": (1, 8)},
        (UNPLACED, UNPLACED): {"a": (0, 5)},
    }


def test_an_arm_gives_way_to_its_parts_where_they_are_placed_more_firmly():
    study = study_of(
        "a",
        labelled("t", 60, (5, 60), "through", "mixed"),
        labelled("tp", 35, (3, 35), "through", "palliation", part_of="t"),
        labelled("tb", 25, (2, 25), "through", "bridge", part_of="t"),
    )
    assert held(study) == {
        ("through", "palliation"): {"a": (3, 35)},
        ("through", "bridge"): {"a": (2, 25)},
    }


def test_a_part_placed_less_firmly_than_the_arm_around_it_gives_way():
    study = study_of(
        "a",
        labelled("tp", 60, (5, 60), "through", "palliation"),
        labelled("long", 20, (3, 20), "through", part_of="tp"),
    )
    assert held(study) == {("through", "palliation"): {"a": (5, 60)}}


def test_of_arms_named_in_one_stratum_each_the_earlier_stratum_goes_first():
    study = study_of(
        "a",
        labelled("p", 60, (5, 60), None, "palliation"),
        labelled("t", 20, (3, 20), "through", part_of="p"),
    )
    assert held(study) == {("through", UNPLACED): {"a": (3, 20)}}


def test_a_study_divided_in_two_ways_enters_in_one():
    """By device and by intent, 60 and 40 of the same 100: they cannot be 200 patients."""
    study = study_of(
        "a",
        whole(100),
        labelled("p", 60, (5, 60), None, "palliation"),
        labelled("b", 40, (1, 40), None, "bridge"),
        labelled("t", 70, (4, 70), "through"),
        labelled("s", 30, (2, 30), "beside"),
    )
    assert held(study) == {
        ("through", UNPLACED): {"a": (4, 70)},
        ("beside", UNPLACED): {"a": (2, 30)},
    }
    table = table_of(study, at=crossed(UNPLACED, "palliation"))
    assert [left.reason for left in table.left_out] == [
        "may hold the same patients as the arms of this study that are pooled"
    ]
    # One stratum at a time, each division is a pool of its own.
    assert rows(table_of(study, at=("intent", "palliation"))) == {"a": (5, 60)}
    assert rows(table_of(study, at=("device", "through"))) == {"a": (4, 70)}
    assert rows(table_of(study, at=("intent", UNPLACED))) == {}


def test_arms_that_may_be_separate_both_enter():
    study = study_of(
        "a",
        whole(100),
        labelled("t", 40, (4, 40), "through"),
        labelled("p", 60, (5, 60), None, "palliation"),
    )
    assert held(study) == {
        ("through", UNPLACED): {"a": (4, 40)},
        (UNPLACED, "palliation"): {"a": (5, 60)},
    }


def test_a_refused_count_at_a_firmer_level_takes_nothing():
    study = study_of(
        "a",
        labelled("t", 60, (5, 60), "through", "mixed"),
        labelled("tp", 35, count(3, 35, of="resected"), "through", "palliation", part_of="t"),
    )
    assert held(study) == {("through", UNPLACED): {"a": (5, 60)}}


def two(first, second, keep=None):
    """Return two studies that share patients; the first declares it."""
    return (
        study_of("a", labelled("x", *first), overlaps=[overlap("b", keep=keep)]),
        study_of("b", labelled("x", *second)),
    )


@pytest.mark.parametrize(
    ("first", "second", "keep", "stays"),
    [
        ((90, (9, 90), "through"), (50, (4, 50), "through", "palliation"), None, "b"),
        ((90, (9, 90), "through"), (50, (4, 50), "through", "palliation"), "a", "b"),
        ((50, (4, 50), "through"), (90, (9, 90), None, "palliation"), None, "a"),
        ((90, (9, 90), "through", "bridge"), (50, (4, 50), "through", "palliation"), None, "a"),
        ((90, (9, 90), "through", "bridge"), (50, (4, 50), "beside", "bridge"), "b", "b"),
        ((50, (4, 50), "through", "bridge"), (50, (4, 50), "beside", "bridge"), None, "a"),
        ((90, (9, 90)), (50, (4, 50), None, "bridge"), None, "b"),
    ],
)
def test_of_two_studies_that_share_patients_one_stands_in_one_crossing(first, second, keep, stays):
    found = held(*two(first, second, keep))
    assert [list(row) for row in found.values()] == [[stays]]


def test_of_equals_at_two_levels_the_one_that_declares_stays():
    one, other = two((50, (4, 50), "through"), (50, (4, 50), "beside"))
    assert rows(table_of(one, other, at=("device", "through"))) == {"a": (4, 50)}
    assert rows(table_of(one, other, at=("device", "beside"))) == {}


def test_an_era_is_not_crossed():
    study = study_of("a", labelled("x", 9, (1, 9), "through"))
    with pytest.raises(ValueError, match="only strata that the extracts label"):
        table_of(study, at=("device", "through", (("era", "before_2005"),)))


@st.composite
def studies(draw):
    """Draw a study of nested arms with labels in two strata, each part no larger than its whole."""
    arms = [whole(200)] if draw(st.booleans()) else []
    for number in range(draw(st.integers(1, 6))):
        parent = draw(st.sampled_from([None, *(one for one in arms if one["arm"] != "whole")]))
        size = draw(st.integers(1, parent["patients"] if parent else 120))
        leak = draw(st.none() | st.builds(count, st.just(0), st.just(size)))
        device = draw(st.sampled_from([None, "through", "beside", "mixed"]))
        intent = draw(st.sampled_from([None, "palliation", "bridge", "not_stated"]))
        more = {"part_of": parent["arm"]} if parent else {}
        arms.append(labelled(f"a{number}", size, leak, device, intent, **more))
    return study_of("s", *arms)


def arms_at(study, at):
    cells = table_of(study, at=at).cells
    return [study.arm_named(s.key_path.split(".")[0]) for cell in cells for s in cell.sources]


@given(studies())
@settings(max_examples=60)
def test_no_arm_enters_two_crossings_nor_beside_an_arm_it_lies_inside_at_another(study):
    found = {at: arms_at(study, at) for at in CROSSINGS}
    names = [one.arm for arms in found.values() for one in arms]
    assert len(set(names)) == len(names)
    for at, arms in found.items():
        for other, others in found.items():
            named_alike = [a == UNPLACED for a in (at[1], at[2][0][1])] == [
                a == UNPLACED for a in (other[1], other[2][0][1])
            ]
            # Parts labelled otherwise than the arm around them, at as firm a level, contradict it.
            if at != other and named_alike:
                continue
            inside = {above.arm for one in arms for above in ancestors(study, one)}
            assert not inside & {one.arm for one in others}


@given(studies())
@settings(max_examples=60)
def test_a_crossing_with_one_stratum_told_is_that_stratum_alone(study):
    """Where no arm says the intent, crossing with it moves every row to its gathering level."""
    bare = study.model_copy(
        update={
            "arms": [
                one.model_copy(
                    update={"strata": {k: v for k, v in one.strata.items() if k != "intent"}}
                )
                for one in study.arms
            ]
        }
    )
    for device in level_names(plan_of().strata["device"]):
        assert rows(table_of(bare, at=("device", device))) == rows(
            table_of(bare, at=crossed(device, UNPLACED))
        )
