"""A declared overlap must name studies of the review."""

from tests.extraction.builders import REED_FILE

OVERLAP = "overlaps: [{study: 2001-reed, kind: certain, reason: one trial}]\narms:\n"


def test_a_known_study(tiny):
    assert tiny.sedge("arms:\n", OVERLAP).found("overlaps-known") == []


def test_which_of_the_two_is_kept(tiny):
    for kept in ("2001-reed", "2010-sedge"):
        tiny.sedge("arms:\n", OVERLAP.replace("reason", f"keep: {kept}, reason"))
        assert tiny.found("overlaps-known") == []
        tiny.sedge(OVERLAP.replace("reason", f"keep: {kept}, reason"), "arms:\n")


def test_an_unknown_study_with_the_nearest_known(tiny):
    (finding,) = tiny.sedge("arms:\n", OVERLAP.replace("reed", "rede")).found("overlaps-known")
    assert finding.message == "'2001-rede' is not another study of this review"
    assert finding.cure == "Did you mean '2001-reed'?"


def test_the_study_itself(tiny):
    tiny.sedge("arms:\n", OVERLAP.replace("2001-reed", "2010-sedge"))
    assert len(tiny.found("overlaps-known")) == 1


def test_keeping_a_third(tiny):
    (finding,) = tiny.sedge("arms:\n", OVERLAP.replace("reason", "keep: other, reason")).found(
        "overlaps-known"
    )
    assert finding.message == "'other' is neither of the two studies"
    assert finding.cure == "Write 2010-sedge or 2001-reed."


def test_a_study_that_could_not_be_read_has_one_fault_of_its_own(tiny):
    tiny.sedge("arms:\n", OVERLAP).reed("events: 4\n", "events: -4\n")
    assert [one.source.file for one in tiny.read().faults] == [REED_FILE]
