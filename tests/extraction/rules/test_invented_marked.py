"""Invented and real studies must not share a review."""


def test_a_real_study_in_an_invented_review(tiny):
    (finding,) = tiny.reed("invented: true", "invented: false").found("invented-marked")
    assert finding.message == "the study is real and the review is invented"
    assert finding.source.key_path == "invented"


def test_an_invented_study_in_a_real_review(tiny):
    tiny.plan("invented: true\n", "").reed("invented: true\n", "")
    (finding,) = tiny.found("invented-marked")
    assert finding.message == "the study is invented and the review is real"


def test_all_real(tiny):
    tiny.plan("invented: true\n", "").reed("invented: true\n", "").sedge("invented: true\n", "")
    assert tiny.found("invented-marked") == []
