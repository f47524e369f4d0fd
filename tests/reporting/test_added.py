"""What a new paper moves: both answers are those of fresh reviews, and nothing else is shown."""

import shutil
from pathlib import Path

import pytest

from evsyn.extraction.load import read_review
from evsyn.pooling.review import answer_questions
from evsyn.reporting.added import moved_by, moved_text
from evsyn.wording.numbers import cell
from tests.extraction.builders import TinyReview

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def reviews(tmp_path_factory):
    """The demo without one of its studies, and with it."""
    folder = tmp_path_factory.mktemp("without") / "demo"
    shutil.copytree(ROOT / "studies" / "demo", folder)
    (folder / "2014-tansy.yaml").unlink()
    return read_review(folder), read_review(ROOT / "studies" / "demo")


def test_both_answers_are_those_of_fresh_pools(reviews):
    before, after = reviews
    moved = moved_by(before, after, ["2014-tansy"])
    asked = tuple(moved.after)
    for found, review in ((moved.before, before), (moved.after, after)):
        fresh = answer_questions(review, asked)
        assert {one: pooled.answer for one, pooled in found.items()} == {
            one: pooled.answer for one, pooled in fresh.items()
        }


def test_only_what_the_study_feeds_is_shown(reviews):
    before, after = reviews
    moved = moved_by(before, after, ["2014-tansy"])
    assert {question.outcome for question in moved.after} == {
        "perforation", "technical_success", "stoma_avoidance", "migration",
    }  # fmt: skip
    for question in moved.changed:
        assert "2014-tansy" in {row.study for row in moved.after[question].table.cells}
        assert question.level in ("overall", "through_the_scope", "palliation", "from_2008")
    text = moved_text(after, moved)
    assert text.startswith("What Tansy 2014 moves\n")
    for question in moved.changed:
        for answers in (moved.before, moved.after):
            row = answers[question].answer.reading.pooled
            assert cell(row.estimate, row.low, row.high) in text
    assert "INVENTED DATA" in text
    assert max(map(len, text.splitlines())) <= 80


def test_a_study_that_moves_nothing_is_told(reviews):
    _, after = reviews
    moved = moved_by(after, after, ["2014-tansy"])
    assert moved.changed == ()
    assert "No pooled answer moves." in moved_text(after, moved)


def test_a_count_that_enters_no_pool_is_named_with_the_reason(tmp_path):
    tiny = TinyReview(tmp_path)
    before = tiny.read()
    tiny.reed(
        "total: 52\n        of: attempted\n        at:",
        "total: 52\n        of: placed\n        at:",
    )
    after = tiny.read()
    (reed,) = (one for one in after.studies if one.study.endswith("reed"))
    text = " ".join(moved_text(after, moved_by(before, after, [reed.study])).split())
    assert "Success: 48 of 52 enters no pool: counted over patients placed" in text
    assert "which the plan does not accept." in text


def test_an_outcome_the_plan_does_not_pool_has_no_table(tmp_path):
    tiny = TinyReview(tmp_path)
    tiny.plan(
        "    event: success\n", "    event: success\n    do_not_pool: told in too many ways\n"
    )
    review = tiny.read()
    lines = moved_text(review, moved_by(review, review, ["2001-reed"])).splitlines()
    said = " ".join(lines)
    assert "Success: 48 of 52 enters no pool: the plan does not pool this outcome" in said
    assert "(told in too many ways)" in said
    assert not any(line.startswith("Success  ") for line in lines)


def test_several_studies_are_told_together(reviews):
    before, after = reviews
    text = moved_text(after, moved_by(before, after, ["2014-tansy", "2008-lungwort"]))
    assert text.startswith("What 2 studies move\n")
    assert "Papers are taken in by the plan" in text
