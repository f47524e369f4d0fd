"""A review's questions are answered, crossed ones too, and named in the plan's words."""

import pytest

from evsyn.cells.cell import Question, question_at
from evsyn.pooling.answer import Show
from evsyn.pooling.review import answer_questions, group_label
from tests.cells.builders import arm, plan_of, review_of, study_of

UNPLACED = "mixed_or_not_stated"
CROSSED = question_at("leak", [("device", "through"), ("intent", "palliation")])


def test_a_crossed_question_is_answered_by_its_own_studies():
    placed = {"device": "through", "intent": "palliation"}
    studies = [
        study_of(f"s{i}", arm("x", 40 + i, (1 + i, 40 + i), strata=placed)) for i in range(5)
    ]
    other = study_of("other", arm("x", 90, (30, 90), strata={"device": "through"}))
    found = answer_questions(review_of(*studies, other), [CROSSED, Question("leak")])
    assert [cell.study for cell in found[CROSSED].table.cells] == ["s0", "s1", "s2", "s3", "s4"]
    assert found[CROSSED].answer.show is Show.SOME
    assert found[Question("leak")].answer.k == 6
    alone = answer_questions(review_of(*studies), [Question("leak")])[Question("leak")].answer
    assert found[CROSSED].answer.reading.pooled == alone.reading.pooled


@pytest.mark.parametrize(
    ("places", "told"),
    [
        ([], ""),
        ([("intent", "palliation")], "palliation"),
        ([("intent", UNPLACED)], "mixed or not stated"),
        ([("era", "before_2005")], "mostly before 2005"),
        ([("device", "through"), ("intent", "palliation")], "through, palliation"),
        ([("device", "through"), ("intent", UNPLACED)], "through, intent mixed or not stated"),
    ],
)
def test_levels_in_the_plans_words(places, told):
    assert group_label(plan_of(), question_at("leak", places)) == told
