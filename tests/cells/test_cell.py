"""What a pool's rows hold together."""

from evsyn.cells.cell import Cell, CellTable, Question


def cell(name, events, total):
    return Cell(name, name, 2010, events, total, "attempted", "30_days", frozenset(), ())


def test_sums_of_a_table():
    table = CellTable(Question("leak"), (cell("a", 1, 10), cell("b", 2, 30)))
    assert (table.k, table.events, table.total) == (2, 3, 40)
    assert (CellTable(Question("leak"), ()).k, CellTable(Question("leak"), ()).total) == (0, 0)


def test_one_word_for_a_question():
    assert Question("leak").key == "leak/overall"
    assert Question("leak", "intent", "palliation").key == "leak/intent=palliation"
