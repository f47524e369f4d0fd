"""The headline is named by the estimator the plan chose, everywhere."""

from dataclasses import replace
from pathlib import Path

import pytest

from evsyn.cells.cell import Question
from evsyn.extraction.load import read_review
from evsyn.pooling.answer import Row
from evsyn.pooling.review import answer_questions
from evsyn.reporting.forest import forest_of
from evsyn.reporting.pool_page import pool_page_text
from evsyn.wording.pooled import pooled_sentence
from evsyn.wording.rows import headline_gives, row_name

DEMO = read_review(Path(__file__).parents[2] / "studies" / "demo")
CHOICES = DEMO.plan.pooling.model_copy(update={"between": "restricted_ml"})
OTHER = replace(DEMO, plan=DEMO.plan.model_copy(update={"pooling": CHOICES}))


@pytest.mark.parametrize(
    ("review", "said", "name"),
    [
        (DEMO, "DerSimonian-Laird, which most papers use, gives 6.6% (5.2% to 8.4%)",
         "DerSimonian-Laird, ordinary interval"),
        (OTHER, "restricted maximum likelihood with an ordinary interval, the plan's headline, "
         "gives 6.6% (5.1% to 8.4%)", "Restricted ML, ordinary interval"),
    ],
)  # fmt: skip
def test_sentence_and_table(review, said, name):
    pooled = answer_questions(review, [Question("perforation")])[Question("perforation")]
    assert said in pooled_sentence(pooled, event="perforation", group="")
    head = pooled.answer.rows[Row.HEADLINE]
    assert row_name(Row.HEADLINE, head) == name
    assert said.startswith(headline_gives(head))


def test_nothing_calls_another_estimator_dersimonian_and_lairds():
    text = pool_page_text(OTHER, ["perforation"], ["intent"], detail=True, look_up=False)
    assert "DerSimonian" not in text
    content = forest_of(OTHER, "perforation", "intent")
    assert "DerSimonian" not in repr(content)
