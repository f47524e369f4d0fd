"""An interval as plain data."""

from dataclasses import FrozenInstanceError

import pytest

from evsyn.terms import Interval


def test_as_plain_data():
    interval = Interval(0.1, 0.3, 0.95, "clopper_pearson")
    assert interval.to_dict() == {
        "low": 0.1, "high": 0.3, "level": 0.95, "method": "clopper_pearson",
    }  # fmt: skip


def test_it_is_frozen():
    with pytest.raises(FrozenInstanceError):
        Interval(0.1, 0.3, 0.95, "wilson").low = 0.2
