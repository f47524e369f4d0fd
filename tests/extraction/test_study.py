"""The extract of one study: its label, its arms, and what it refuses."""

import json

import pytest

from evsyn.extraction.study import Study
from evsyn.extraction.yaml_text import parse_bytes
from evsyn.terms import CountedBy, Covers, TextRead


def study_of(**changes):
    written = {
        "format": 1,
        "study": "x1",
        "citation": {"authors": "Reed A", "year": 2001},
        "extracted": {"by": "XY", "on": "2026-01-05", "from": "abstract"},
        "arms": [{"arm": "all", "patients": 5}],
        **changes,
    }
    return Study.model_validate(parse_bytes(json.dumps(written).encode()).root)


@pytest.mark.parametrize(
    ("citation", "label"),
    [
        ({"authors": "Reed A, Moss B", "year": 2001}, "Reed 2001"),
        ({"authors": "Reed AB", "year": 2001}, "Reed 2001"),
        ({"authors": "Reed et al.", "year": 2001}, "Reed 2001"),
        ({"authors": "van der Reed JE, Moss B", "year": 2001}, "van der Reed 2001"),
        ({"authors": "O'Reed-Moss B"}, "O'Reed-Moss"),
        ({"authors": "Reed"}, "Reed"),
        ({"pmid": "1", "journal": "J Reeds", "year": 2001}, "PubMed 1, 2001"),
        ({"journal": "J Reeds", "year": 2001}, "J Reeds, 2001"),
        ({"journal": "J Reeds"}, "J Reeds"),
        ({"year": 2001}, "x1"),
        ({}, "x1"),
    ],
)
def test_the_label_for_tables(citation, label):
    assert study_of(citation=citation).name == label


def test_what_is_taken_where_nothing_is_written():
    study = study_of()
    assert not study.invented
    assert study.arms[0].covers is Covers.PART
    assert study.setting.centres is None
    assert study.extracted.from_ is TextRead.ABSTRACT
    counted = {"perforation": {"events": 1, "total": 5, "of": "attempted"}}
    count = study_of(arms=[{"arm": "all", "patients": 5, "outcomes": counted}]).arms[0].outcomes
    assert count["perforation"].window == "not_stated"
    assert count["perforation"].counted_by is CountedBy.PATIENT
    assert not count["perforation"].assumed


def test_an_arm_is_found_by_name():
    study = study_of(arms=[{"arm": "a", "patients": 1}, {"arm": "b", "patients": 2}])
    assert study.arm_named("b").patients == 2
    assert study.arm_named("c") is None


def test_the_parts_of_an_arm():
    study = study_of(
        arms=[
            {"arm": "all", "covers": "whole_study", "patients": 9},
            {"arm": "a", "part_of": "all", "patients": 5},
            {"arm": "a1", "part_of": "a", "patients": 2},
            {"arm": "b", "patients": 4},
        ]
    )
    parts = {arm.arm: [part.arm for part in study.parts_of(arm)] for arm in study.arms}
    assert parts == {"all": ["a", "b"], "a": ["a1"], "a1": [], "b": []}


def test_free_arms_have_no_parts_without_a_whole_study_arm():
    study = study_of(arms=[{"arm": "a", "patients": 1}, {"arm": "b", "patients": 2}])
    assert [study.parts_of(arm) for arm in study.arms] == [[], []]


@pytest.mark.parametrize("centres", [1, 7, ["A", "B"]])
def test_centres_are_a_number_or_names(centres):
    assert study_of(setting={"centres": centres}).setting.centres == centres
