"""What a pool's rows hold together."""

import pytest

from evsyn.cells.cell import Cell, CellTable, Question, question_at


def cell(name, events, total):
    return Cell(name, name, 2010, events, total, "attempted", "30_days", frozenset(), ())


def test_sums_of_a_table():
    table = CellTable(Question("leak"), (cell("a", 1, 10), cell("b", 2, 30)))
    assert (table.k, table.events, table.total) == (2, 3, 40)
    assert (CellTable(Question("leak"), ()).k, CellTable(Question("leak"), ()).total) == (0, 0)


def test_one_word_for_a_question():
    assert Question("leak").key == "leak/overall"
    assert Question("leak", "intent", "palliation").key == "leak/intent=palliation"
    crossed = Question("leak", "device", "through", (("intent", "palliation"),))
    assert crossed.key == "leak/device=through/intent=palliation"


def test_a_question_is_made_of_its_places():
    places = (("device", "through"), ("intent", "palliation"))
    crossed = question_at("leak", places)
    assert crossed == Question("leak", "device", "through", (("intent", "palliation"),))
    assert crossed.places == places
    assert (crossed.strata, crossed.levels) == (("device", "intent"), ("through", "palliation"))
    assert question_at("leak", places[:1]) == Question("leak", "device", "through")
    assert question_at("leak", ()) == Question("leak")
    assert Question("leak").places == ()


@pytest.mark.parametrize(
    "wrong", [("device", "through", (("device", "beside"),)),
              ("overall", "overall", (("device", "beside"),))],
)  # fmt: skip
def test_a_question_that_crosses_nothing_is_refused(wrong):
    with pytest.raises(ValueError, match="crosses strata that differ"):
        Question("leak", *wrong)
