"""Groups must sum to the flow, and each stage of a group must have one number."""

import pytest

from evsyn.terms import Severity
from tests.extraction.flow.made_up import count, found, group, unit

NAME = "unit-strata"


def two(first, second, **more):
    return {
        "groups": [group(12, perforation=first), group(8, "bridge", perforation=second)],
        **more,
    }


@pytest.mark.parametrize(
    ("fields", "message"),
    [
        (two(count(1, 12), count(0, 8), flow={"attempted": 21}),
         "perforation: the groups' attempted sum to 20, the flow says 21"),
        (two(count(1, 12), count(0, 8), flow={"attempted": 19}),
         "perforation: the groups' attempted sum to 20, the flow says 19"),
        ({"groups": [group(12, perforation=count(1, 12)), group(8, "bridge")],
          "flow": {"attempted": 11}},
         "perforation: the groups' attempted sum to 12, the flow says 11"),
        (two(count(1, 12), count(0, 6, "placed"), flow={"attempted": 15, "placed": 5}),
         "perforation: the groups' placed sum to 6, the flow says 5"),
        ({"groups": [group(12, perforation=count(1, 12)), group(8, "bridge", fever=count(0, 8))],
          "flow": {"attempted": 21}},
         "the groups' patients sum to 20, the flow says attempted 21"),
        ({"groups": [group(12, perforation=count(1, 11)), group(8, "bridge", fever=count(0, 8))],
          "flow": {"considered": 25, "attempted": 19}},
         "the groups' patients sum to 20, the flow says considered 25, attempted 19"),
        ({"groups": [group(12, perforation=count(1, 12), fever=count(0, 11))]},
         "palliation: 11 attempted for fever and 12 for perforation"),
    ],
)  # fmt: skip
def test_groups_that_do_not_sum(fields, message):
    findings = found(unit(**fields), NAME)
    assert message in [finding.message for finding in findings]
    assert {finding.severity for finding in findings} == {Severity.FAULT}


@pytest.mark.parametrize(
    "fields",
    [
        two(count(1, 12), count(0, 8), flow={"considered": 25, "attempted": 20}),
        two(count(1, 12), count(0, 8), flow={"placed": 19}),
        two(count(1, 12), count(0, 6, "placed"), flow={"attempted": 20, "placed": 17}),
        two(count(1, 9), count(0, 8), flow={"considered": 20, "attempted": 17}),
        two(count(1, 12, "resected"), count(0, 3, "resected"), flow={"attempted": 99}),
        {"groups": [group(12, perforation=count(1, 12), migration=count(0, 10, "placed"))]},
        {"flow": {"attempted": 3}},
    ],
)
def test_groups_that_sum_or_cannot_be_summed(fields):
    assert found(unit(**fields), NAME) == []


def test_patients_of_procedures_are_not_summed():
    fields = two(count(1, 13), count(0, 9), flow={"attempted": 22}, counted_by="procedure")
    assert found(unit(**fields), NAME) == []
