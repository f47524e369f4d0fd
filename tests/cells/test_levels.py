"""Which level of a stratum an arm or a study belongs to."""

import pytest

from evsyn.cells.levels import (
    ancestors,
    arm_level,
    era_level,
    era_strata,
    labelled_strata,
    level_names,
    precedence,
    studies_stating,
)
from tests.cells.builders import arm, plan_of, review_of, study_of, whole

ERA = plan_of().strata["era"]


@pytest.mark.parametrize(
    ("strata", "level"),
    [
        ({"intent": "palliation"}, "palliation"),
        ({"intent": "mixed"}, "mixed_or_not_stated"),
        ({"intent": "not_stated"}, "mixed_or_not_stated"),
        ({}, "mixed_or_not_stated"),
        ({"device": "beside"}, "mixed_or_not_stated"),
    ],
)
def test_mixed_and_unlabelled_arms_share_one_level(strata, level):
    assert arm_level(study_of("a", arm("x", 9, strata=strata)).arms[0], "intent") == level


# The era by the middle of recruitment: a year stands for all of it, a month for all of it.
@pytest.mark.parametrize(
    ("first", "last", "level"),
    [
        ("1995", "1999", "before_2005"),
        ("2004", "2005", "from_2005"),  # start of 2004 to end of 2005: its middle starts 2005
        ("2003", "2005", "before_2005"),
        ("2004-06", "2005-06", "before_2005"),  # June to June: the middle is in December 2004
        ("2004-07", "2005-06", "from_2005"),
        ("2004-07-15", "2005-06-15", "from_2005"),
        ("2000", "2012", "from_2005"),
        ("2005", "2005", "from_2005"),
        ("2004-12", "2004-12", "before_2005"),
    ],
)
def test_the_middle_of_recruitment(first, last, level):
    study = study_of("a", arm("x", 9), recruited={"from": first, "to": last}, year=2020)
    assert era_level(study, ERA) == level


@pytest.mark.parametrize(
    ("year", "level"),
    [(2004, "before_2005"), (2005, "mixed_or_not_stated"), (2020, "mixed_or_not_stated"),
     (None, "mixed_or_not_stated")],
)  # fmt: skip
def test_without_dates_only_an_early_paper_is_placed(year, level):
    assert era_level(study_of("a", arm("x", 9), year=year), ERA) == level


@pytest.mark.parametrize(
    ("cut", "level"), [(2003, "from_2003"), (2005, "before_2005"), (2007, "before_2007")]
)
def test_a_shifted_cut(cut, level):
    study = study_of("a", arm("x", 9), recruited={"from": "2003", "to": "2005-06"})
    assert era_level(study, ERA, cut) == level


def test_level_names_have_the_gathering_level_last():
    strata = plan_of().strata
    assert list(level_names(strata["intent"])) == ["palliation", "bridge", "mixed_or_not_stated"]
    assert list(level_names(strata["era"])) == ["before_2005", "from_2005", "mixed_or_not_stated"]
    assert list(level_names(strata["era"], 2003))[:2] == ["before_2003", "from_2003"]


@pytest.mark.parametrize("cut", [None, 2003, 2007])
def test_every_study_has_a_level_that_is_named(cut):
    for dates in (None, {"from": "1990", "to": "1999"}, {"from": "2010", "to": "2012"}):
        for year in (None, 1999, 2020):
            study = study_of("a", arm("x", 9), recruited=dates, year=year)
            assert era_level(study, ERA, cut) in level_names(ERA, cut)


def test_the_arms_an_arm_lies_inside():
    study = study_of("a", whole(9), arm("x", 6, part_of="whole"), arm("y", 3, part_of="x"),
                     arm("z", 3))  # fmt: skip
    inside = {one.arm: [above.arm for above in ancestors(study, one)] for one in study.arms}
    assert inside == {"whole": [], "x": ["whole"], "y": ["x", "whole"], "z": ["whole"]}


def test_a_circle_of_arms_ends():
    study = study_of("a", arm("x", 6, part_of="y"), arm("y", 6, part_of="x"))
    assert len(list(ancestors(study, study.arms[0]))) == 2


def test_which_studies_state_a_stratum():
    review = review_of(
        study_of("a", arm("x", 9, strata={"intent": "bridge"})),
        study_of("b", arm("x", 9, strata={"intent": "mixed"})),
        study_of("c", arm("x", 9), arm("y", 9, strata={"intent": "palliation"})),
    )
    assert [study.study for study in studies_stating(review, "intent")] == ["a", "c"]
    assert studies_stating(review, "device") == ()


def test_the_two_kinds_of_strata():
    assert list(labelled_strata(plan_of())) == ["intent", "device"]
    assert list(era_strata(plan_of())) == ["era"]


def test_which_levels_go_first():
    unplaced = "mixed_or_not_stated"
    order = [
        ("through", "palliation"),
        ("through", unplaced),
        (unplaced, "palliation"),
        (unplaced, unplaced),
    ]
    assert sorted(order, key=precedence, reverse=True) == order
    assert precedence(("through", "palliation")) == precedence(("beside", "bridge"))
    assert precedence(("bridge",)) > precedence((unplaced,)) > precedence(())
