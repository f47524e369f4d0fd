"""Patients who were treated again count once where patients are counted."""

import pytest

from evsyn.terms import Severity
from tests.extraction.flow.made_up import count, found, group, unit

NAME = "unit-retreated"


def two(first, second, **more):
    groups = [group(25, migration=count(1, first, "placed")),
              group(20, "bridge", migration=count(1, second, "placed"))]  # fmt: skip
    return {"flow": {"placed": 39}, "devices": 43, "groups": groups, **more}


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        (two(24, 19), "migration: the groups' placed sum to 43, as many as the 43 devices, "
                      "while 39 patients were placed"),
        (two(22, 19), "migration: the groups' placed sum to 41, more, "
                      "while 39 patients were placed"),
    ],
)  # fmt: skip
def test_devices_among_patients(fields, said):
    (finding,) = found(unit(**fields), NAME)
    assert (finding.message, finding.severity) == (said, Severity.FAULT)
    assert finding.source.key_path == "groups.0.outcomes.migration.total"


def test_it_is_told_once():
    assert [finding.rule for finding in found(unit(**two(24, 19)))] == [NAME]


@pytest.mark.parametrize(
    "fields",
    [
        two(22, 17),
        two(24, 19, counted_by="device"),
        two(24, 19, devices=39),
        two(24, 20),
        {**two(24, 19), "flow": {}},
    ],
)
def test_patients_counted_once_or_nothing_known(fields):
    assert found(unit(**fields), NAME) == []
