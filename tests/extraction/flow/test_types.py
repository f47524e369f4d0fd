"""Small tables lose nothing against the full table of types."""

from math import prod

import pytest

from evsyn.extraction.flow import types
from evsyn.extraction.flow.attributes import Attributes
from evsyn.extraction.flow.clash import smallest_clash
from evsyn.extraction.flow.lines import unit_lines
from evsyn.extraction.flow.system import system_of
from evsyn.extraction.flow.types import TooManyTypesError, tables
from tests.extraction.flow.made_up import plan, unit
from tests.extraction.flow.test_clash import IMPOSSIBLE, POSSIBLE

FLOWS = {**{name: one for name, (one, _) in IMPOSSIBLE.items()}, **POSSIBLE}


def said_in(made, against):
    lines = unit_lines(made, against)
    return {cases for line in lines for limit in line.limits for _, cases in limit.cases}


@pytest.mark.parametrize("fields", FLOWS.values(), ids=FLOWS)
def test_the_full_table_gives_the_same_clash(fields, monkeypatch):
    cliques = types._cliques

    def of_all(graph, sizes):
        return cliques({name: set(graph) - {name} for name in graph}, sizes)

    made, against = unit(**fields), plan()
    lines = unit_lines(made, against)
    small = smallest_clash(system_of(lines, made, against))
    monkeypatch.setattr(types, "_cliques", of_all)
    full = system_of(lines, made, against)
    assert len(smallest_clash(full)) == len(small)


def test_what_no_line_ties_together_stays_apart():
    made = unit(
        flow={"considered": 9, "attempted": 9, "placed": 9, "stoma": 1, "bridged": 4},
        complications={name: {"early": 1, "late": 1} for name in ("perforation", "migration")},
        patients_end={"alive": 9},
    )
    against = plan()
    attributes = Attributes(against)
    found = tables(said_in(made, against), made, attributes, 10_000)
    assert max(len(table.attributes) for table in found) == 2
    names = {name for table in found for name in table.attributes}
    assert sum(len(table.cells) for table in found) < 60
    assert prod(len(attributes.values(name)) for name in names) > 1_000


def test_tables_share_with_their_parent_what_they_share_with_any_later_one():
    made = unit(**IMPOSSIBLE["more stomas in a group than its count leaves"][0])
    against = plan()
    found = tables(said_in(made, against), made, Attributes(against, 2), 10_000)
    for place, table in enumerate(found[:-1]):
        later = {name for other in found[place + 1 :] for name in other.attributes}
        assert set(table.shared) == set(table.attributes) & later
        assert set(table.shared) <= set(found[table.parent].attributes)
    assert found[-1].parent is None


def test_too_many_cells_are_not_searched():
    made, against = unit(flow={"placed": 3}), plan()
    with pytest.raises(TooManyTypesError):
        tables(said_in(made, against), made, Attributes(against), 3)
