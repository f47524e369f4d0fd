"""A review as read: what it offers to the rooms that follow."""


def test_a_study_is_found_by_name(tiny):
    review = tiny.read()
    assert review.study("2010-sedge").name == "Sedge 2010"
    assert review.study("sedge") is None


def test_a_review_with_one_invented_study_is_invented(tiny):
    tiny.plan("invented: true", "invented: false").sedge("invented: true", "invented: false")
    assert tiny.read().invented
    assert not tiny.reed("invented: true", "invented: false").read().invented


def test_faults_and_open_doubts_are_told_apart(tiny):
    tiny.reed("events: 4\n", "events: 53\n").reed("        at: Table 2, p. 5\n        printed",
                                                  "        printed")  # fmt: skip
    review = tiny.read()
    assert [one.rule for one in review.faults] == ["events-within-total"]
    assert {one.rule for one in review.open_doubts} == {"place-missing", "percentage-fits"}
    assert len(review.findings) == 3
