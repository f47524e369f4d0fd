"""Early, late and ever must fit one another."""

import pytest

from evsyn.terms import Severity
from tests.extraction.flow.made_up import found, unit

NAME = "unit-timing"


@pytest.mark.parametrize(
    ("counted", "message"),
    [
        ({"early": 3, "late": 1, "ever": 2}, "perforation: 3 early and 2 ever"),
        ({"late": 3, "ever": 2}, "perforation: 3 late and 2 ever"),
        ({"early": 3, "late": 1, "ever": 5}, "perforation: 3 early, 1 late and 5 ever"),
    ],
)
def test_what_cannot_be(counted, message):
    (finding,) = found(unit(complications={"perforation": counted}), NAME)
    assert (finding.message, finding.severity) == (message, Severity.FAULT)
    assert finding.source.key_path == "complications.perforation.ever"


@pytest.mark.parametrize(
    "counted",
    [
        {"early": 3, "late": 1, "ever": 3},
        {"early": 3, "late": 1, "ever": 4},
        {"early": 3, "ever": 9},
        {"ever": 2},
        {"early": 3, "late": 1},
        {"early": 0, "late": 0, "ever": 0},
    ],
)
def test_what_can_be(counted):
    assert found(unit(complications={"perforation": counted}), NAME) == []
