"""A target decided after the figures were frozen is told."""

import pytest

from evsyn.extraction.plan import Plan
from evsyn.extraction.yaml_text import parse_bytes
from evsyn.terms import Severity
from tests.extraction.flow.made_up import PLAN, found, unit

NAME = "unit-target-later"


def with_target(decided_on):
    target = f"{{rate: 0.06, according_to: a made-up group, decided_on: {decided_on}}}"
    text = f"{PLAN}audit: {{targets: {{perforation: {target}}}}}\n"
    return Plan.model_validate(parse_bytes(text.encode()).root)


def test_a_later_target_is_a_note():
    (finding,) = found(unit(), NAME, with_target("2024-03-02"))
    assert finding.severity == Severity.NOTE
    assert finding.source.key_path == "frozen_on"
    assert finding.message == (
        "the target for perforation was decided on 2024-03-02, after the figures were frozen on "
        "2024-03-01"
    )


@pytest.mark.parametrize("decided_on", ["2024-03-01", "2019-12-31"])
def test_one_of_the_same_day_or_before_is_none(decided_on):
    assert found(unit(), NAME, with_target(decided_on)) == []
    assert found(unit(), NAME) == []
