"""No change moves a pooled value unseen."""

import json
import math
from typing import Any

import pytest

from tests.golden.values import REVIEWS, path_of, values_of


@pytest.mark.parametrize("name", REVIEWS)
def test_pooled_values_stand_where_they_were(name: str) -> None:
    kept = json.loads(path_of(name).read_text(encoding="utf-8"))
    now = values_of(name)
    assert sorted(now) == sorted(kept)
    moved = [key for key in kept if not same(now[key], kept[key])]
    assert moved == []


def same(now: Any, kept: Any) -> bool:
    """Tell whether two kept values are equal, numbers to six digits."""
    if isinstance(kept, dict):
        return sorted(now) == sorted(kept) and all(same(now[key], kept[key]) for key in kept)
    if isinstance(kept, list):
        return len(now) == len(kept) and all(map(same, now, kept))
    if isinstance(kept, float) and isinstance(now, (int, float)):
        return math.isclose(now, kept, rel_tol=1e-6, abs_tol=1e-9)
    return bool(now == kept)
