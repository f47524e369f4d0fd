"""The row that is read: when, why, and what is said to differ."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from evsyn.cells.cell import Cell, CellTable, Question
from evsyn.pooling.answer import Differs, PoolAnswer, Row, Show, Trigger
from evsyn.pooling.binomial_normal import pool_binomial_normal
from evsyn.pooling.choose import answer_tables, shown, triggers
from evsyn.pooling.functions import pool_proportions
from evsyn.pooling.reading import profile_interval


def table(*counts: tuple[int, int], outcome: str = "o") -> CellTable:
    cells = tuple(
        Cell(f"s{i}", f"s{i}", None, x, n, "attempted", "30_days", frozenset(), ())
        for i, (x, n) in enumerate(counts)
    )
    return CellTable(Question(outcome), cells)


def answer(*counts: tuple[int, int]) -> PoolAnswer:
    (found,) = answer_tables([table(*counts)], between="dersimonian_laird", level=0.95)
    return found


def arrays(*counts: tuple[int, int]) -> tuple[np.ndarray, np.ndarray]:
    return np.array([x for x, _ in counts]), np.array([n for _, n in counts])


@pytest.mark.parametrize(
    ("counts", "expected"),
    [
        ((), Show.NOTHING),
        (((0, 9),), Show.ONE),
        (((1, 9), (2, 9)), Show.TWO),
        (((0, 9), (0, 8)), Show.ALL_ZERO),
        (((9, 9), (8, 8), (7, 7)), Show.ALL_FULL),
        (((1, 9),) * 3, Show.FEW),
        (((1, 9),) * 4, Show.FEW),
        (((1, 9),) * 5, Show.SOME),
        (((1, 9),) * 9, Show.SOME),
        (((1, 9),) * 10, Show.MANY),
    ],
)
def test_how_much_is_shown(counts: tuple[tuple[int, int], ...], expected: Show) -> None:
    assert shown(*arrays(*counts)) is expected


def test_a_plan_that_refuses_shows_counts_alone() -> None:
    assert shown(*arrays((1, 9), (2, 9)), refused=True) is Show.REFUSED
    assert shown(*arrays((1, 9)), refused=True) is Show.REFUSED


@pytest.mark.parametrize(
    ("counts", "expected"),
    [
        (((10, 40), (12, 50), (9, 60)), ()),
        (((4, 40), (12, 50), (9, 60)), (Trigger.FEW_IN_A_STUDY,)),
        (((36, 40), (44, 50), (40, 60)), (Trigger.FEW_IN_A_STUDY,)),
        (((6, 40), (6, 50), (6, 60)), (Trigger.FEW_IN_ALL,)),
        (((34, 40), (44, 50), (54, 60)), (Trigger.FEW_IN_ALL,)),
        (((10, 400), (12, 500), (9, 600)), (Trigger.RARE,)),
        (((0, 20), (1, 45), (2, 160)), tuple(Trigger)),
    ],
)
def test_each_trigger(counts: tuple[tuple[int, int], ...], expected: tuple[Trigger, ...]) -> None:
    assert triggers(*arrays(*counts)) == expected


def test_five_per_cent_itself_is_not_rare() -> None:
    assert Trigger.RARE not in triggers(*arrays((10, 200), (10, 200), (10, 200)))
    assert Trigger.RARE not in triggers(*arrays((190, 200), (190, 200), (190, 200)))


def test_with_few_events_the_exact_row_is_read() -> None:
    found = answer((0, 20), (1, 45), (0, 33), (3, 120), (2, 60), (0, 15), (5, 210))
    assert found.reading is not None
    assert found.reading.row is Row.EXACT
    # 0.02187: the exact value of this set, from an independent 61-node quadrature checked by
    # 25-digit integration (own computation, no printed source).
    assert found.reading.pooled.estimate == pytest.approx(0.02187, abs=5e-6)
    assert found.rows[Row.HEADLINE].estimate == pytest.approx(0.025062, abs=5e-7)


def test_with_many_events_restricted_ml_is_read() -> None:
    found = answer((10, 40), (12, 50), (9, 60), (30, 90))
    assert found.reading is not None
    assert found.reading.row is Row.RESTRICTED_ML
    again = pool_proportions(
        [10, 12, 9, 30],
        [40, 50, 60, 90],
        between="restricted_ml",
        interval="hartung_knapp_floor",
    )
    assert found.reading.pooled.low == pytest.approx(again.low, rel=1e-12)


def test_rows_equal_the_public_functions() -> None:
    events, total = [2, 7, 1, 9, 0], [40, 66, 30, 80, 25]
    found = answer(*zip(events, total, strict=True))
    assert found.rows[Row.HEADLINE] == pool_proportions(events, total)
    assert found.rows[Row.EXACT] == pool_binomial_normal(events, total)


def test_weights_and_places_are_those_of_the_answers_own_studies() -> None:
    tables = [table((2, 40), (0, 66), (1, 30)), table((9, 80), (8, 25), (0, 70), (6, 60))]
    for one, found in zip(
        tables, answer_tables(tables, between="dersimonian_laird", level=0.95), strict=True
    ):
        for name in (Row.HEADLINE, Row.RESTRICTED_ML, Row.EXACT):
            row = found.rows[name]
            assert len(row.weights) == one.k
            assert sum(row.weights) == pytest.approx(1)
        empty = [n for n, cell in enumerate(one.cells) if cell.events == 0]
        assert list(found.rows[Row.HEADLINE].corrected) == empty


def test_a_huge_study_leaves_the_beta_binomial_row_out() -> None:
    assert Row.BETA_BINOMIAL not in answer((50, 100_000), (4, 60), (3, 80)).rows


def test_below_three_studies_there_is_no_row() -> None:
    for counts in (((4, 52),), ((4, 52), (1, 30))):
        found = answer(*counts)
        assert found.rows == {}
        assert found.reading is None


def test_the_crude_interval_is_that_of_the_total() -> None:
    found = answer((4, 52), (1, 30))
    exact = stats.binomtest(5, 82).proportion_ci(method="exact")
    assert found.crude is not None
    assert (found.crude.low, found.crude.high) == pytest.approx((exact.low, exact.high))


def test_the_limit_that_no_event_leaves_open() -> None:
    assert answer((0, 20), (0, 40)).one_sided == pytest.approx(1 - 0.05 ** (1 / 60))
    assert answer((20, 20), (40, 40)).one_sided == pytest.approx(0.05 ** (1 / 60))
    assert answer((1, 20), (0, 40)).one_sided is None


def test_a_restricted_ml_range_is_never_narrower_than_its_interval() -> None:
    # Equal shares: no spread, and a floored interval on t wider than the range without spread.
    found = answer((20, 80), (30, 120), (10, 40), (15, 60))
    assert found.reading is not None
    row = found.reading.pooled
    assert row.prediction_low <= row.low + 1e-12
    assert row.prediction_high >= row.high - 1e-12
    assert found.rows[found.reading.row] == row


def test_next_to_no_spread_gives_a_second_wider_range() -> None:
    found = answer((5, 80), (8, 120), (3, 40), (4, 60), (6, 90))
    assert found.reading is not None
    assert found.reading.centre.tau < 0.1
    assert found.second_prediction is not None
    row = found.reading.pooled
    assert found.second_prediction.low < row.prediction_low
    assert found.second_prediction.high > row.prediction_high
    held = found.reading.at_tau_hi
    assert held is not None
    half = stats.t.ppf(0.975, 4) * math.hypot(held.tau, held.se)
    expected = 1 / (1 + math.exp(-(held.mu + half)))
    assert found.second_prediction.high == pytest.approx(expected, rel=1e-9)


def test_clear_spread_gives_one_range() -> None:
    found = answer((1, 80), (30, 120), (3, 40), (25, 60), (2, 90))
    assert found.second_prediction is None


def test_disagreement_needs_half_a_point_and_a_fifth() -> None:
    far = answer((0, 20), (2, 9), (0, 33), (3, 120), (2, 60), (0, 15), (9, 110))
    assert Differs.POINTS in {item.kind for item in far.disagreements}
    near = answer((20, 80), (31, 120), (12, 40), (14, 60), (25, 90))
    assert near.disagreements == ()


def test_profile_interval_stands_beside_the_exact_row() -> None:
    found = answer((2, 40), (7, 66), (1, 30), (9, 80), (0, 25))
    beside = profile_interval(found, level=0.95)
    assert beside is not None
    row = found.rows[Row.EXACT]
    assert beside.low < row.estimate < beside.high
    assert profile_interval(answer((1, 9)), level=0.95) is None


@settings(max_examples=25)
@given(
    st.lists(
        st.integers(5, 120).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))),
        min_size=3,
        max_size=8,
    )
)
def test_the_mirror_of_the_counts_mirrors_the_answer(counts: list[tuple[int, int]]) -> None:
    found, mirror = answer(*counts), answer(*((n - x, n) for x, n in counts))
    if found.reading is None or mirror.reading is None:
        assert found.reading is None
        assert mirror.reading is None
        return
    assert found.reading.row is mirror.reading.row
    assert found.reading.reasons == mirror.reading.reasons
    here, there = found.reading.pooled, mirror.reading.pooled
    assert here.estimate == pytest.approx(1 - there.estimate, abs=2e-5)
    assert here.low == pytest.approx(1 - there.high, abs=2e-4)


def test_tables_pooled_together_equal_tables_pooled_alone() -> None:
    tables = [table((2, 40), (7, 66), (1, 30)), table((9, 80), (8, 25), (20, 70), (6, 60))]
    together = answer_tables(tables, between="dersimonian_laird", level=0.95)
    for one, expected in zip(tables, together, strict=True):
        (alone,) = answer_tables([one], between="dersimonian_laird", level=0.95)
        assert alone.events == expected.events
        for row, pooled in alone.rows.items():
            assert pooled.estimate == pytest.approx(expected.rows[row].estimate, rel=1e-9)
            assert pooled.low == pytest.approx(expected.rows[row].low, rel=1e-9)
