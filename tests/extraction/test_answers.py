"""Answers written in an extract meet the doubts they name, and an answered doubt stays visible."""

import pytest

from evsyn.terms import Answer, Severity

DOUBTFUL = [
    ('printed: "7.7%"', 'printed: "9.9%"'),
    ("        at: Table 2, p. 5\n        printed", "        printed"),
    ("        of: attempted\n        at: Table 2, p. 5\n", "        of: attempted\n"),
]


@pytest.fixture
def doubtful(tiny):
    """One percentage that does not fit, and two counts without a place."""
    for old, new in DOUBTFUL:
        tiny.reed(old, new)
    rules = sorted(one.rule for one in tiny.found())
    assert rules == ["percentage-fits", "place-missing", "place-missing"]
    return tiny


def answered(tiny, *entries):
    return tiny.reed(
        "arms:\n", "answers:\n" + "".join(f"  - {one}\n" for one in entries) + "arms:\n"
    )


def entry(rule, at=None, reason="seen"):
    place = f"at: {at}, " if at else ""
    return f"{{rule: {rule}, {place}reason: {reason}, by: XY, on: 2026-01-06}}"


def test_an_answer_is_attached_and_the_doubt_stays(doubtful):
    review = answered(doubtful, entry("percentage-fits")).read()
    (finding,) = [one for one in review.findings if one.rule == "percentage-fits"]
    assert finding.answer == Answer("seen", "XY", "2026-01-06")
    assert finding.severity is Severity.DOUBT
    assert not finding.is_open
    assert len(review.open_doubts) == 2


def test_an_answer_without_a_place_meets_all_of_its_rule(doubtful):
    review = answered(doubtful, entry("place-missing")).read()
    assert [one.rule for one in review.open_doubts] == ["percentage-fits"]


def test_an_answer_with_a_place_meets_that_one(doubtful):
    review = answered(doubtful, entry("place-missing", "all.success")).read()
    assert {(one.rule, one.source.key_path) for one in review.open_doubts} == {
        ("percentage-fits", "all.perforation"),
        ("place-missing", "all.perforation"),
    }


def test_an_answer_may_name_an_arm(doubtful):
    review = answered(doubtful, entry("place-missing", "all")).read()
    assert [one.rule for one in review.open_doubts] == ["percentage-fits"]


def test_a_place_is_matched_by_whole_words(doubtful):
    review = answered(doubtful, entry("place-missing", "al")).read()
    assert len(review.open_doubts) == 3


def test_the_answer_that_names_its_place_goes_first(doubtful):
    both = entry("place-missing", reason="all"), entry("place-missing", "all.success", "one")
    found = [one for one in answered(doubtful, *both).found() if one.rule == "place-missing"]
    assert {(one.source.key_path, one.answer.reason) for one in found} == {
        ("all.perforation", "all"),
        ("all.success", "one"),
    }


def test_an_answer_that_meets_nothing_is_noted(doubtful):
    review = answered(doubtful, entry("sum-differs")).read()
    (note,) = [one for one in review.findings if one.severity is Severity.NOTE]
    assert note.rule == "answer-unmatched"
    assert note.message == "the answer to 'sum-differs' meets no doubt"
    assert len(review.open_doubts) == 3


def test_of_two_answers_on_one_line_only_the_idle_one_is_noted(doubtful):
    line = f"answers: [{entry('percentage-fits')}, {entry('sum-differs')}]\narms:\n"
    notes = [one for one in doubtful.reed("arms:\n", line).found() if "answer" in one.rule]
    assert [one.message for one in notes] == ["the answer to 'sum-differs' meets no doubt"]


def test_an_answer_in_one_study_answers_nothing_in_another(doubtful):
    line = f"answers: [{entry('place-missing')}]\narms:\n"
    review = doubtful.sedge("arms:\n", line).read()
    assert len(review.open_doubts) == 3


def test_a_fault_cannot_be_answered(tiny):
    tiny.reed("events: 4\n", "events: 53\n").reed('        printed: "7.7%"\n', "")
    review = answered(tiny, entry("events-within-total")).read()
    assert [one.rule for one in review.faults] == ["events-within-total"]
    assert review.faults[0].answer is None


def test_a_note_cannot_be_answered(tiny):
    tiny.reed('printed: "7.7%"', 'printed: "7.6%"')
    rules = {one.rule for one in answered(tiny, entry("percentage-truncated")).found()}
    assert rules == {"percentage-truncated", "answer-unmatched"}


@pytest.mark.parametrize("missing", ["reason: seen, ", "by: XY, ", ", on: 2026-01-06"])
def test_an_answer_needs_reason_name_and_day(doubtful, missing):
    assert answered(doubtful, entry("place-missing").replace(missing, "")).read().faults
