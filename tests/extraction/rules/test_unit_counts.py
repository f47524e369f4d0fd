"""One count of a unit must be possible by itself."""

import pytest

from evsyn.terms import Severity
from tests.extraction.flow.made_up import count, found, group, unit

NAME = "unit-counts"


@pytest.mark.parametrize(
    ("counted", "key", "message"),
    [
        (count(9, 8), "", "9 events of 8 cannot be"),
        (count(6, 8, unknown=3), ".unknown", "6 events and 3 unknown of 8 cannot be"),
        (count(0, 9), ".total", "a total of 9 in a group of 8 patients"),
    ],
)
def test_a_count_that_cannot_be(counted, key, message):
    (finding,) = found(unit(groups=[group(8, perforation=counted)]), NAME)
    assert (finding.message, finding.severity) == (message, Severity.FAULT)
    assert finding.source.key_path == f"groups.0.outcomes.perforation{key}"


@pytest.mark.parametrize("counted", [count(8, 8), count(5, 8, unknown=3), count(0, 7, "placed")])
def test_a_count_that_can_be(counted):
    assert found(unit(groups=[group(8, perforation=counted)]), NAME) == []


def test_procedures_may_be_more_than_patients():
    groups = [group(8, perforation=count(0, 9))]
    assert found(unit(groups=groups, counted_by="procedure"), NAME) == []
