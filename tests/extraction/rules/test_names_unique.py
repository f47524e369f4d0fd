"""A study or an arm must not stand twice."""

from tests.extraction.builders import REED


def test_a_name_unlike_its_file(tiny):
    (finding,) = tiny.reed("study: 2001-reed", "study: 2001-rede").found("names-unique")
    assert finding.message == "the study is called '2001-rede' and its file '2001-reed.yaml'"


def test_one_study_in_two_files(tiny):
    found = tiny.write("2002-reed.yaml", REED).found("names-unique")
    assert {one.message for one in found} == {
        "the study is called '2001-reed' and its file '2002-reed.yaml'",
        "'2001-reed' is also the name of the study in 2001-reed.yaml",
    }


def test_two_arms_of_one_name(tiny):
    (finding,) = tiny.sedge("  - arm: bridge", "  - arm: palliation").found("names-unique")
    assert finding.message == "the arm 'palliation' stands twice, on lines 10 and 15"


def test_one_arm_name_in_two_studies(tiny):
    assert tiny.sedge("  - arm: bridge", "  - arm: all").found("names-unique") == []
