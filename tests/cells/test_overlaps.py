"""Of studies that certainly share patients, one enters a pool."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evsyn.cells.cell import Question
from evsyn.cells.overlaps import winners
from evsyn.cells.table import cell_table
from tests.cells.builders import arm, overlap, review_of, rows, study_of, table_of


def made(name, total, *overlaps):
    return study_of(name, arm("x", total, (1, total)), overlaps=overlaps)


def lost(*studies):
    review = review_of(*studies)
    everyone = review_of(*[made(one.study, one.arms[0].patients) for one in studies])
    return winners(review, list(cell_table(everyone, Question("leak")).cells))


def test_the_larger_stays():
    assert lost(made("a", 10, overlap("b")), made("b", 20)) == {"a": "b"}
    assert lost(made("a", 20, overlap("b")), made("b", 10)) == {"b": "a"}


def test_the_one_named_stays():
    assert lost(made("a", 10, overlap("b", keep="a")), made("b", 20)) == {"b": "a"}
    assert lost(made("a", 20, overlap("b", keep="b")), made("b", 10)) == {"a": "b"}


def test_of_equals_the_one_that_declares_stays():
    assert lost(made("a", 10), made("b", 10, overlap("a"))) == {"a": "b"}


def test_declared_by_both_it_counts_once():
    assert lost(made("a", 10, overlap("b")), made("b", 20, overlap("a"))) == {"a": "b"}


def test_a_possible_overlap_takes_nothing_out():
    assert lost(made("a", 10, overlap("b", "possible")), made("b", 20)) == {}


def test_an_overlap_with_a_study_outside_the_pool_takes_nothing_out():
    assert lost(made("a", 10, overlap("elsewhere"))) == {}


@pytest.mark.parametrize("order", ["abc", "acb", "bac", "bca", "cab", "cba"])
def test_a_study_gives_way_only_to_one_that_is_pooled(order):
    """Of a chain of overlaps the ends share no patients, so both stay when the middle goes."""
    chain = {
        "a": made("a", 100, overlap("b")),
        "b": made("b", 90, overlap("c")),
        "c": made("c", 80),
    }
    assert lost(*(chain[name] for name in order)) == {"b": "a"}


@pytest.mark.parametrize("order", ["abc", "acb", "bac", "bca", "cab", "cba"])
def test_the_middle_of_a_chain_alone_stays_when_it_is_largest(order):
    chain = {"a": made("a", 10, overlap("b")), "b": made("b", 90), "c": made("c", 20, overlap("b"))}
    assert lost(*(chain[name] for name in order)) == {"a": "b", "c": "b"}


def test_a_circle_of_kept_names_leaves_one():
    circle = (
        made("a", 10, overlap("b", keep="a")),
        made("b", 10, overlap("c", keep="b")),
        made("c", 10, overlap("a", keep="c")),
    )
    kept = {"a", "b", "c"} - lost(*circle).keys()
    assert len(kept) == 1


def test_what_gives_way_is_listed_with_the_reason():
    table = table_of(made("a", 10, overlap("b")), made("b", 20), made("c", 5))
    assert rows(table) == {"b": (1, 20), "c": (1, 5)}
    (left,) = table.left_out
    assert (left.study, left.events, left.total) == ("a", 1, 10)
    assert left.reason == "shares patients with b, which is pooled"


def test_the_larger_is_judged_by_the_outcome_at_hand():
    one = study_of("a", arm("x", 50, (1, 20), success=(18, 30, "attempted", "not_stated")),
                   overlaps=[overlap("b")])  # fmt: skip
    two = study_of("b", arm("x", 25, (1, 25), success=(20, 25, "attempted", "not_stated")))
    assert rows(table_of(one, two)) == {"b": (1, 25)}
    assert rows(table_of(one, two, outcome="success")) == {"a": (18, 30)}


pairs = st.sets(st.tuples(st.integers(0, 5), st.integers(0, 5)).filter(lambda p: p[0] < p[1]))


@given(pairs, st.lists(st.integers(1, 9), min_size=6, max_size=6), st.data())
@settings(max_examples=200, deadline=None)
def test_no_two_that_overlap_stay_and_none_goes_for_nothing(pairs, totals, data):
    declared = [[] for _ in totals]
    for one, other in sorted(pairs):
        kept = data.draw(st.sampled_from([None, one, other]))
        declared[one].append(overlap(f"s{other}", keep=None if kept is None else f"s{kept}"))
    studies = [made(f"s{i}", total, *declared[i]) for i, total in enumerate(totals)]
    gone = lost(*studies)
    for one, other in pairs:
        assert f"s{one}" in gone or f"s{other}" in gone
    for name, keeper in gone.items():
        assert keeper not in gone
        assert {(int(name[1]), int(keeper[1])), (int(keeper[1]), int(name[1]))} & pairs


def at(level):
    return {"intent": level}


def placed(*studies, level):
    table = table_of(*studies, at=("intent", level))
    return sorted(cell.study for cell in table.cells)


def test_no_patients_stand_in_two_levels_of_a_stratum():
    """A mixed series gives way to the study that tells its patients at a named level."""
    mixed = study_of("all", arm("x", 90, (9, 90), strata=at("mixed")), overlaps=[overlap("some")])
    some = study_of("some", arm("x", 50, (4, 50), strata=at("palliation")))
    assert placed(mixed, some, level="palliation") == ["some"]
    assert placed(mixed, some, level="mixed_or_not_stated") == []


def test_of_two_named_levels_the_study_named_or_the_larger_stays():
    one = study_of("a", arm("x", 90, (9, 90), strata=at("bridge")), overlaps=[overlap("b")])
    two = study_of("b", arm("x", 50, (4, 50), strata=at("palliation")))
    assert placed(one, two, level="bridge") == ["a"]
    assert placed(one, two, level="palliation") == []
    kept = study_of(
        "a", arm("x", 90, (9, 90), strata=at("bridge")), overlaps=[overlap("b", keep="b")]
    )
    assert placed(kept, two, level="bridge") == []
    assert placed(kept, two, level="palliation") == ["b"]


def test_a_study_left_out_takes_no_patients_at_another_level():
    one = study_of("a", arm("x", 90, (9, 90), strata=at("bridge")), overlaps=[overlap("b")])
    two = study_of("b", arm("x", 50, (4, 50), strata=at("palliation")))
    table = table_of(one, two, at=("intent", "palliation"), without=["a"])
    assert rows(table) == {"b": (4, 50)}
