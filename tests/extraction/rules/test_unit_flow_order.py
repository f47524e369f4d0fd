"""A later stage cannot hold more cases than an earlier one, nor a step more than its stage."""

import pytest

from evsyn.terms import Severity
from tests.extraction.flow.made_up import found, plan, unit

NAME = "unit-flow-order"


@pytest.mark.parametrize(
    ("fields", "key", "message"),
    [
        ({"flow": {"attempted": 20, "placed": 21}}, "flow.placed", "21 placed after 20 attempted"),
        ({"flow": {"considered": 2, "placed": 3}}, "flow.placed", "3 placed after 2 considered"),
        ({"flow": {"placed": 9, "bridged": 10}}, "flow.bridged", "10 bridged after 9 placed"),
        ({"flow": {"attempted": 9, "bridged": 10}}, "flow.bridged", "10 bridged after 9 attempted"),
        ({"flow": {"stoma": 4, "reversed": 5}}, "flow.reversed", "5 reversed after 4 stoma"),
        ({"flow": {"attempted": 4}, "complications": {"perforation": {"late": 5}}},
         "complications.perforation", "5 perforation after 4 attempted"),
        ({"flow": {"attempted": 4, "perforation": 5}},
         "flow.perforation", "5 perforation after 4 attempted"),
    ],
)  # fmt: skip
def test_what_grows(fields, key, message):
    (finding,) = found(unit(**fields), NAME)
    assert (finding.message, finding.severity) == (message, Severity.FAULT)
    assert finding.source.key_path == key


@pytest.mark.parametrize(
    "fields",
    [
        {"flow": {"attempted": 20, "placed": 20, "relieved": 0}},
        {"flow": {"placed": 9, "stoma": 20}},
        {"flow": {"placed": 9}, "complications": {"perforation": {"ever": 10}}},
        {"complications": {"perforation": {"early": 3, "late": 3}}},
    ],
)
def test_what_does_not(fields):
    assert found(unit(**fields), NAME) == []


def test_a_step_within_itself_is_the_plans_fault_and_ends_the_search():
    circle = plan("within: considered}", "within: reversed}")
    assert found(unit(flow={"stoma": 4, "reversed": 4}), NAME, circle) == []
