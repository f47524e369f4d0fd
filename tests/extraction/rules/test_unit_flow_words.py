"""The course of a unit's cases must be told in the plan's words."""

import pytest

from evsyn.terms import Severity
from tests.extraction.flow.made_up import PLAN, found, plan, say, unit

NAME = "unit-flow-words"


@pytest.mark.parametrize(
    ("fields", "key", "message", "cure"),
    [
        ({"flow": {"plcaed": 3}}, "flow.plcaed",
         "'plcaed' is not a flow stage or step of the plan", "Did you mean 'placed'?"),
        ({"complications": {"perforatoin": {"early": 1}}}, "complications.perforatoin",
         "'perforatoin' is not a complication of the plan", "Did you mean 'perforation'?"),
        ({"complications": {"stoma": {"early": 1}}}, "complications.stoma",
         "'stoma' is not a complication of the plan", "Known words:"),
        ({"patients_end": {"dead": 1}}, "patients_end.dead",
         "'dead' is not an end of patients of the plan", "Known words: alive"),
        ({"devices_end": {"inplace": 1}}, "devices_end.inplace",
         "'inplace' is not an end of devices of the plan", "Did you mean 'in_place'?"),
        ({"statements": [say(1, "placed", "not releived")]}, "statements.0.who",
         "'not releived' is not a term of the plan's course of a case",
         "Did you mean 'relieved'?"),
        ({"statements": [say(1, "stoma early")]}, "statements.0.who",
         "'stoma early' is not a term of the plan's course of a case", "Did you mean 'stoma'?"),
        ({"statements": [say(1, "perforation soon")]}, "statements.0.who",
         "'perforation soon' is not a term of the plan's course of a case",
         "Did you mean 'perforation"),
    ],
)  # fmt: skip
def test_an_unknown_word(fields, key, message, cure):
    (finding,) = found(unit(**fields), NAME)
    assert (finding.message, finding.severity) == (message, Severity.FAULT)
    assert finding.source.key_path == key
    assert finding.cure.startswith(cure)


def test_a_term_with_two_meanings():
    twice = plan("levels: {scope: through the scope", "levels: {palliation: through the scope")
    (finding,) = found(unit(statements=[say(1, "palliation")]), NAME, twice)
    assert finding.message == "'palliation' means two things in the plan"


def test_every_word_of_the_plan_may_be_said():
    made = unit(
        flow={"placed": 3, "stoma": 1, "perforation": 1},
        complications={"perforation": {"early": 1}},
        patients_end={"alive": 3},
        devices_end={"in_place": 3},
        statements=[
            say(0, "placed", "not relieved", "perforation", "not perforation early",
                "perforation  late", "alive", "palliation", "not wire"),
        ],
    )  # fmt: skip
    assert "perforation" in PLAN
    assert found(made, NAME) == []
