"""All lines of a unit's flow must be able to hold of some patients."""

import pytest

from evsyn.extraction.flow import system
from evsyn.extraction.unit import Unit
from evsyn.terms import Severity
from tests.extraction.flow.made_up import count, found, group, plan, say, unit

NAME = "unit-flow-possible"
CLASH = {
    "flow": {"placed": 39, "relieved": 37},
    "statements": [say(3, "placed", "not relieved", how="at_least")],
}


def test_the_lines_that_clash_are_named_with_a_reason():
    (finding,) = found(unit(**CLASH), NAME)
    assert finding.severity is Severity.FAULT
    assert finding.message == (
        "these 3 lines cannot all hold: line 16, 39 placed; line 17, 37 relieved; "
        "line 19, at least 3 to whom 'placed, not relieved' applies"
    )
    assert finding.cure.startswith("If the others hold, line 19 can say at most 2.")
    assert finding.source.key_path == "flow.placed"


def test_a_line_that_contradicts_the_plan_alone():
    (finding,) = found(unit(statements=[say(1, "bridged", "not placed")]), NAME)
    assert finding.message.startswith("this line cannot hold: line 16, exactly 1 to whom")


def test_figures_made_without_a_file_are_held_together_too():
    written = unit(**CLASH).model_dump(by_alias=True, exclude_none=True)
    (finding,) = found(Unit.model_validate(written, strict=False), NAME)
    assert finding.message.startswith("these 3 lines cannot all hold: 39 placed; 37 relieved;")
    assert finding.cure.startswith("If the others hold, the last can say at most 2.")


@pytest.mark.parametrize("spoilt", [{"complete": False}, {"patients_end": {"ded": 1}}])
def test_simpler_faults_come_first(spoilt):
    said = {finding.rule for finding in found(unit(**CLASH, **spoilt))}
    assert (NAME in said) is ("complete" in spoilt)


def test_a_unit_counted_by_procedures_gets_a_note():
    (finding,) = found(unit(**CLASH, counted_by="procedure"), NAME)
    assert finding.severity is Severity.NOTE
    assert finding.message.endswith("the file counts by procedure")


@pytest.mark.parametrize(("name", "most"), [("CELLS", 3), ("LARGEST", 10)])
def test_too_many_types_or_too_large_numbers_get_a_note(monkeypatch, name, most):
    monkeypatch.setattr(system, name, most)
    (finding,) = found(unit(**CLASH), NAME)
    assert finding.severity is Severity.NOTE


def test_groups_alone_are_held_together_where_an_outcome_counts_a_stage():
    counts = {"success": count(6, 8), "migration": count(0, 7, "placed")}
    (finding,) = found(unit(groups=[group(8, **counts)]), NAME)
    assert finding.message.startswith("these 2 lines cannot all hold")
    assert found(unit(groups=[group(8, perforation=count(0, 8))]), NAME, plan()) == []
