"""Which test of small studies is asked, and when none is."""

from pathlib import Path

import numpy as np
import pytest

from evsyn.cells.cell import Cell, CellTable, Question
from evsyn.cells.comparison import ComparisonCell, ComparisonTable
from evsyn.extraction.load import read_review
from evsyn.pooling.choose import answer_tables
from evsyn.pooling.compared import answer_comparison
from evsyn.pooling.regression import regress_proportions
from evsyn.pooling.review import answer_comparisons
from evsyn.pooling.small_asked import NoSmallTest, small_comparison, small_shares
from evsyn.pooling.small_studies import harbord, peters, peters_proportions
from evsyn.pooling.tables import PooledTable
from tests.pooling.test_printed_classics import BCG

STUDIES = Path(__file__).parents[2] / "studies"


def cell(number, events, total):
    return Cell(f"s{number}", "s", None, int(events), int(total), "of", "in", frozenset(), ())


def shares(events, total, **kwargs):
    cells = tuple(cell(*row) for row in zip(range(99), events, total, strict=False))
    table = CellTable(Question("o"), cells)
    (answer,) = answer_tables([table], between="dersimonian_laird", level=0.95, **kwargs)
    return small_shares(PooledTable(table, answer))


RNG = np.random.default_rng(8)
TOTAL = RNG.integers(20, 200, 12)
EVENTS = RNG.binomial(TOTAL, 0.4)


def test_both_lines_are_those_of_the_counts():
    found = shares(EVENTS, TOTAL)
    assert found.line == peters_proportions(EVENTS, TOTAL)
    exact = regress_proportions(EVENTS, TOTAL, {"one_over_size": 1 / TOTAL})
    assert found.exact == exact
    assert found.sizes_apart == TOTAL.max() / TOTAL.min()
    # Enough events in every study: the weighted line is read, and gives the rate.
    assert not found.reads_exact
    odds = np.exp(found.line.other + found.line.tested / 50)
    assert found.rate_at(50) == pytest.approx(odds / (1 + odds))


def test_few_events_make_the_exact_line_the_one_to_read():
    found = shares([1, *EVENTS[1:]], TOTAL)
    assert found.reads_exact
    intercept, slope = (one.estimate for one in found.exact.coefficients)
    odds = np.exp(intercept + slope / 50)
    assert found.rate_at(50) == pytest.approx(odds / (1 + odds))
    assert np.isnan(found.line.p)  # no P of the weighted line where events are few
    assert found.line.tested == peters_proportions([1, *EVENTS[1:]], TOTAL).tested


def test_the_weighted_line_has_no_honest_p_where_events_are_few():
    """Nothing differs, and yet far more than one P in 20 lies below 0.05 at a rate of 1%."""
    rng = np.random.default_rng(3)
    total = np.geomspace(8, 250, 25).astype(int)
    alarms = [peters_proportions(rng.binomial(total, 0.01), total).p < 0.05 for _ in range(200)]
    assert np.mean(alarms) > 0.25


def test_without_the_exact_model_nothing_is_said_of_few_events():
    """Studies at 0% or 100% alone: the exact model has no maximum."""
    total = np.arange(20, 34)
    events = np.where(np.arange(14) % 2, total, 0)
    found = shares(events, total)
    assert (found.reason, found.line) == (NoSmallTest.NOT_SETTLED, None)


@pytest.mark.parametrize(
    ("events", "total", "refused", "reason"),
    [
        (EVENTS[:9], TOTAL[:9], (), NoSmallTest.TOO_FEW),
        (EVENTS, TOTAL, ("o",), NoSmallTest.BY_PLAN),
        ([0] * 12, TOTAL, (), NoSmallTest.NO_RESULT),
        (TOTAL, TOTAL, (), NoSmallTest.NO_RESULT),
        (EVENTS % 20, [40] * 12, (), NoSmallTest.ONE_SIZE),
        ([], [], (), NoSmallTest.TOO_FEW),
    ],
)
def test_refusals_of_single_proportions(events, total, refused, reason):
    found = shares(events, total, refused=refused)
    assert (found.reason, found.line, found.exact) == (reason, None, None)


def compared(rows, refused=False):
    cells = tuple(
        ComparisonCell(cell(number, a, n1), cell(number, c, n2))
        for number, (a, n1, c, n2) in enumerate(rows)
    )
    return small_comparison(
        answer_comparison(
            ComparisonTable("a_b", "o", cells),
            contrast="risk_ratio",
            better="fewer",
            between="dersimonian_laird",
            level=0.95,
            refused=refused,
        )
    )


def test_much_spread_brings_peters_and_little_harbord():
    wide = compared(BCG)
    assert wide.tau2 > 0.1
    assert wide.line == peters(*BCG.T)
    alike = np.array([(10 + n % 3, 100 + 7 * n, 12, 100 + 9 * n) for n in range(11)])
    narrow = compared(alike)
    assert narrow.tau2 < 0.1
    assert narrow.line == harbord(*alike.T)


def test_refusals_of_comparisons():
    assert compared(BCG[:9]).reason is NoSmallTest.TOO_FEW
    assert compared(BCG, refused=True).reason is NoSmallTest.BY_PLAN
    # A trial without an event informs no odds ratio and is not counted.
    empty = [(0, 20, 0, 20)] * 4
    assert compared([*BCG[:9], *empty]).reason is NoSmallTest.TOO_FEW
    assert compared([*BCG[:9], *empty]).k == 9


def test_real_trials_are_too_few():
    review = read_review(STUDIES / "published-trials")
    found = [small_comparison(one) for one in answer_comparisons(review, ["morbidity"])]
    assert found
    assert all(one.reason is NoSmallTest.TOO_FEW for one in found)
