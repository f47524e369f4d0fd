"""Every patient ended somewhere, being alive included."""

import pytest

from evsyn.terms import Severity
from tests.extraction.flow.made_up import count, found, group, plan, unit

NAME = "unit-ends"
ENDS = {"alive": 15, "died_early": 1, "died_later": 3, "lost": 1}


@pytest.mark.parametrize(
    ("fields", "message", "cure"),
    [
        ({"flow": {"attempted": 21}, "patients_end": ENDS},
         "the ends of patients sum to 20, and 21 were attempted", "Each has one end"),
        ({"flow": {"attempted": 19}, "patients_end": ENDS},
         "the ends of patients sum to 20, and 19 were attempted", "Each has one end"),
        ({"flow": {"attempted": 21}, "patients_end": {"died_early": 1, "died_later": 3}},
         "the ends of patients sum to 4, and 21 were attempted", "Not listed: alive, lost."),
        ({"groups": [group(9), group(8, "bridge")], "patients_end": ENDS},
         "the ends of patients sum to 20, and 17 were attempted", "Each has one end"),
    ],
)  # fmt: skip
def test_ends_that_do_not_sum(fields, message, cure):
    (finding,) = found(unit(**fields), NAME)
    assert (finding.message, finding.severity) == (message, Severity.FAULT)
    assert finding.source.key_path == "patients_end"
    assert finding.cure.startswith(cure)


@pytest.mark.parametrize(
    "fields",
    [
        {"flow": {"attempted": 20}, "patients_end": ENDS},
        {"flow": {"attempted": 20}},
        {"flow": {"placed": 17}, "patients_end": ENDS},
        {"groups": [group(9, migration=count(0, 9, "placed"))], "patients_end": ENDS},
    ],
)
def test_ends_that_sum_or_cannot_be_summed(fields):
    assert found(unit(**fields), NAME) == []


def test_a_plan_that_does_not_say_of_whom():
    silent = plan("  patients_end_of: attempted\n")
    assert found(unit(flow={"attempted": 9}, patients_end=ENDS), NAME, silent) == []
