"""Each cell of a disputed-count table against the changed table pooled alone."""

import math
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from evsyn.cells.cell import CellTable, Question
from evsyn.extraction.load import read_review
from evsyn.extraction.review import Review
from evsyn.pooling import reading
from evsyn.pooling.answer import Row
from evsyn.pooling.choose import answer_tables
from evsyn.pooling.disputed import DisputedPool, Side, disputed_pool, side_of
from evsyn.pooling.result import Pooled
from evsyn.pooling.review import answer_questions
from evsyn.pooling.what_if import NOT_OF_THE_PAPER
from evsyn.wording.numbers import cell, limits

STUDIES = Path(__file__).parent.parent.parent / "studies"
RADIOLOGICAL = Question("perforation", "device_generation", "radiological")
UNDATED = Question("stoma_formed", "era", "mixed_or_not_stated")
#: Small pools of both reviews; two of them read the exact row, one the restricted one.
POOLS = (
    ("demo", RADIOLOGICAL, Row.EXACT),
    ("published", RADIOLOGICAL, Row.EXACT),
    ("published", UNDATED, Row.RESTRICTED_ML),
)


@cache
def review_of(folder: str) -> Review:
    return read_review(STUDIES / folder)


@cache
def disputed(folder: str, question: Question) -> DisputedPool:
    review = review_of(folder)
    (base,) = answer_questions(review, [question]).values()
    return disputed_pool(review, base)


@pytest.fixture(params=POOLS, ids=lambda one: f"{one[0]} {one[1].key}")
def pool(request: pytest.FixtureRequest) -> DisputedPool:
    folder, question, row = request.param
    found = disputed(folder, question)
    assert found.base.answer.reading is not None
    assert found.base.answer.reading.row is row
    return found


def alone(counts: list[tuple[int, int]], like: CellTable) -> tuple[Row, Pooled]:
    """Pool counts in a call of their own, nothing kept from before."""
    reading._fitted_once.cache_clear()
    cells = tuple(
        replace(like.cells[0], study=f"s{n}", events=x, total=total)
        for n, (x, total) in enumerate(counts)
    )
    table = CellTable(like.question, cells)
    (answer,) = answer_tables([table], between="dersimonian_laird", level=0.95)
    assert answer.reading is not None
    return answer.reading.row, answer.reading.pooled


def test_each_cell_is_the_changed_table_pooled_alone(pool: DisputedPool) -> None:
    counts = [(row.events, row.total) for row in pool.base.table.cells]
    assert len(pool.studies) == len(counts)
    checked = 0
    for place, study in enumerate(pool.studies):
        x, n = counts[place]
        for variant in (study.counts[0], study.counts[-1], study.without):
            put = [] if variant.change is None else [(x + variant.change, n)]
            changed = [*counts[:place], *put, *counts[place + 1 :]]
            found = variant.pooled.answer.reading
            if len(changed) < 3:
                assert found is None
                assert math.isnan(variant.shift)
                continue
            row, expected = alone(changed, pool.base.table)
            assert found is not None
            assert found.row is row
            same = (found.pooled.estimate, found.pooled.low, found.pooled.high)
            wanted = (expected.estimate, expected.low, expected.high)
            # Sums of many sets at once differ in rounding where the sets differ in length.
            assert same == (wanted if row is Row.EXACT else pytest.approx(wanted, rel=1e-12))
            assert cell(*same) == cell(*wanted)
            ranges = [(one.prediction_low, one.prediction_high) for one in (found.pooled, expected)]
            assert limits(*ranges[0]) == limits(*ranges[1])
            checked += 1
    assert checked >= 2 * len(counts)


def test_counts_run_from_three_fewer_to_three_more_within_what_can_be(pool: DisputedPool) -> None:
    for study in pool.studies:
        x, n = study.row.events, study.row.total
        expected = [by for by in range(-3, 4) if 0 <= x + by <= n]
        assert [one.change for one in study.counts] == expected
        (unchanged,) = (one for one in study.counts if one.change == 0)
        assert unchanged.pooled == pool.base
        assert unchanged.shift == 0


def test_a_changed_count_names_no_paper_and_no_other_row_changes(pool: DisputedPool) -> None:
    for study in pool.studies:
        for variant in study.counts:
            for row, was in zip(variant.pooled.table.cells, pool.base.table.cells, strict=True):
                if row.study != study.row.study or not variant.change:
                    assert row == was
                else:
                    assert [source.file for source in row.sources] == [NOT_OF_THE_PAPER]
                    assert row.events == was.events + variant.change


def test_another_row_is_read_where_a_study_falls_below_five_events() -> None:
    read = {}
    for study in disputed("published", UNDATED).studies:
        for one in study.counts:
            least = min(min(r.events, r.total - r.events) for r in one.pooled.table.cells)
            assert one.pooled.answer.reading is not None
            read.setdefault(least < 5, set()).add(one.pooled.answer.reading.row)
    assert read == {True: {Row.EXACT}, False: {Row.RESTRICTED_ML}}


def test_who_shares_patients_with_a_study_left_out_comes_in() -> None:
    review = review_of("demo")
    asked = Question("perforation", "intent", "bridge_to_surgery")
    (base,) = answer_questions(review, [asked]).values()
    names = {row.study for row in base.table.cells}
    found = {one.row.study: one for one in disputed_pool(review, base, most=0).studies}
    for name, one in found.items():
        (again,) = answer_questions(review, [asked], without=[name]).values()
        assert one.without.pooled.table.cells == again.table.cells
        comes = {row.study for row in again.table.cells} - names
        assert bool(comes) == bool(one.comes_in)


def test_nothing_is_disputed_where_nothing_is_pooled() -> None:
    review = review_of("demo")
    (base,) = answer_questions(review, [Question("reobstruction")]).values()
    assert disputed_pool(review, base).studies == ()
    assert side_of(base.answer, 0.1) is None


def test_on_which_side_of_a_rate_an_interval_lies(pool: DisputedPool) -> None:
    answer = pool.base.answer
    assert answer.reading is not None
    row = answer.reading.pooled
    assert side_of(answer, row.low) is Side.HOLDS
    assert side_of(answer, row.high) is Side.HOLDS
    assert side_of(answer, math.nextafter(row.low, 0)) is Side.ABOVE
    assert side_of(answer, math.nextafter(row.high, 1)) is Side.BELOW
