"""Figures that are not complete must say what is missing."""

import pytest

from tests.extraction.flow.made_up import found, unit

NAME = "unit-left-out"
ONE = [{"count": 1, "why": "notes not found"}]


def test_not_complete_and_nothing_left_out():
    (finding,) = found(unit(complete=False), NAME)
    assert finding.message.startswith("the figures are not complete and no case is listed")
    assert finding.source.key_path == "complete"


@pytest.mark.parametrize("fields", [{"complete": True}, {"complete": False, "left_out": ONE}])
def test_complete_or_said(fields):
    assert found(unit(**fields), NAME) == []
