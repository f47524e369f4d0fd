"""Cases lost to follow-up must be as many in both places."""

import pytest

from evsyn.terms import Severity
from tests.extraction.flow.made_up import found, plan, unit

NAME = "unit-lost"
ENDS = {"alive": 3, "died_early": 0, "died_later": 1, "lost": 2}


def test_two_numbers_are_a_doubt():
    (finding,) = found(unit(followed={"lost": 1}, patients_end=ENDS), NAME)
    assert (finding.message, finding.severity) == (
        "followed: 1 lost; patients ended: 2 lost",
        Severity.DOUBT,
    )
    assert finding.source.key_path == "followed.lost"


@pytest.mark.parametrize(
    "fields",
    [
        {"followed": {"lost": 2}, "patients_end": ENDS},
        {"followed": {"least_days": 30}, "patients_end": ENDS},
        {"followed": {"lost": 1}},
        {"followed": {"lost": 1}, "patients_end": {"alive": 3}},
        {"patients_end": ENDS},
    ],
)
def test_one_number_or_none(fields):
    assert found(unit(**fields), NAME) == []


def test_a_plan_without_such_an_end():
    other = plan("    lost: lost to follow-up", "    gone: lost to follow-up")
    ends = {"alive": 3, "gone": 2}
    assert found(unit(followed={"lost": 1}, patients_end=ends), NAME, other) == []
