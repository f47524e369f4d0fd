"""No change moves a pooled value unseen."""

import json

import pytest
from tests.golden.values import REVIEWS, path_of, values_of


@pytest.mark.parametrize("name", REVIEWS)
def test_pooled_values_stand_where_they_were(name: str) -> None:
    kept = json.loads(path_of(name).read_text(encoding="utf-8"))
    now = values_of(name)
    assert sorted(now) == sorted(kept)
    for key, value in kept.items():
        assert (
            now[key] == pytest.approx(value, rel=1e-6, abs=1e-9)
            if isinstance(value, list)
            else _same(now[key], value)
        ), key


def _same(now: dict, kept: dict) -> bool:
    plain = {name: value for name, value in kept.items() if name != "rows"}
    return {name: now[name] for name in plain} == plain and all(
        now["rows"][row] == pytest.approx(values, rel=1e-6, abs=1e-9)
        for row, values in kept["rows"].items()
    )
