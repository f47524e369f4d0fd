"""Sets of counts pooled at once against the same sets pooled alone."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evsyn.pooling.functions import pool_proportions
from evsyn.pooling.result import Status
from evsyn.pooling.side_by_side import pool_proportions_sets

COUNT = st.integers(1, 300).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))


@given(st.lists(st.lists(COUNT, max_size=7), max_size=6))
@settings(max_examples=40)
def test_each_set_is_pooled_as_if_alone(written: list[list[tuple[int, int]]]) -> None:
    sets = [
        (np.array([x for x, _ in one], dtype=int), np.array([n for _, n in one], dtype=int))
        for one in written
    ]
    method = {"between": "restricted_ml", "interval": "hartung_knapp_floor", "level": 0.95}
    for one, record in zip(sets, pool_proportions_sets(sets, **method), strict=True):
        alone = pool_proportions(*one, **method)
        assert (record.k, record.status, record.notes, record.corrected) == (
            alone.k,
            alone.status,
            alone.notes,
            alone.corrected,
        )
        assert record.weights == pytest.approx(alone.weights, rel=1e-9)
        for name in ("estimate", "low", "high", "q", "prediction_low", "prediction_high"):
            expected = getattr(alone, name)
            assert getattr(record, name) == pytest.approx(expected, rel=1e-8, nan_ok=True)


def test_an_empty_set_among_others_holds_no_study() -> None:
    none, some = np.array([], dtype=int), np.array([2, 3])
    records = pool_proportions_sets(
        [(none, none), (some, 10 * some)], between="dersimonian_laird", level=0.9
    )
    assert [record.status for record in records] == [Status.NO_STUDY, Status.POOLED]


def test_impossible_counts_are_refused() -> None:
    wrong = [(np.array([3]), np.array([2]))]
    with pytest.raises(ValueError, match="events"):
        pool_proportions_sets(wrong, between="dersimonian_laird", level=0.95)
