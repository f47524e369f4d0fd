"""The tables of one pool in full."""

from evsyn.cells.cell import Question
from evsyn.pooling.answer import Show
from evsyn.pooling.review import answer_questions
from evsyn.reporting.pool_text import detail_text
from tests.reporting.page.made import review


def in_full(level: str) -> tuple[Show, str]:
    question = Question("technical_success", "device_generation", level)
    (pooled,) = answer_questions(review(), [question]).values()
    return pooled.answer.show, detail_text(review(), pooled, [])


def test_so_few_studies_that_no_sentence_gives_a_range_give_none_in_the_table():
    show, text = in_full("radiological")
    assert show is Show.FEW
    rows = text.partition("\nMethod ")[2].partition("\n\n")[0]
    assert rows.count("none given") == 4
    show, text = in_full("through_the_scope")
    assert show is Show.MANY
    assert "none given" not in text
