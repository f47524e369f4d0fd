"""Devices must meet the patients who held them, and the ways they ended."""

import pytest

from evsyn.terms import Severity
from tests.extraction.flow.made_up import found, plan, unit

NAME = "unit-devices"


@pytest.mark.parametrize(
    ("fields", "key", "message"),
    [
        ({"flow": {"placed": 39}, "devices": 38}, "devices",
         "the file counts 38, and 39 were placed"),
        ({"flow": {"placed": 39}, "devices_end": {"in_place": 30, "migrated": 8}}, "devices_end",
         "the ends of devices sum to 38, and 39 were placed"),
        ({"flow": {"attempted": 41, "placed": 39}, "devices": 39,
          "devices_end": {"in_place": 41}}, "devices_end.in_place",
         "41 devices in place at last contact or death of 39 placed"),
        ({"devices": 2, "devices_end": {"in_palce": 3}}, "devices_end.in_palce",
         "3 devices in_palce of 2 placed"),
        ({"devices": 39, "devices_end": {"in_place": 30, "migrated": 8}}, "devices_end",
         "the ends of devices sum to 38, and 39 were placed"),
        ({"devices": 39, "devices_end": {"in_place": 32, "migrated": 8}}, "devices_end",
         "the ends of devices sum to 40, and 39 were placed"),
    ],
)  # fmt: skip
def test_devices_that_do_not_meet(fields, key, message):
    (finding,) = found(unit(**fields), NAME)
    assert (finding.message, finding.severity) == (message, Severity.FAULT)
    assert finding.source.key_path == key


@pytest.mark.parametrize(
    "fields",
    [
        {"flow": {"placed": 39}, "devices": 45, "devices_end": {"in_place": 40, "taken_out": 5}},
        {"flow": {"placed": 39}, "devices_end": {"in_place": 45}},
        {"flow": {"attempted": 41}, "devices": 38},
        {"devices": 0, "devices_end": {"in_place": 0}},
    ],
)
def test_devices_that_meet_or_cannot_be_compared(fields):
    assert found(unit(**fields), NAME) == []


def test_a_plan_that_does_not_say_who_holds_them():
    silent = plan("  devices_of: placed\n")
    assert found(unit(flow={"placed": 39}, devices=3), NAME, silent) == []
