"""From pooled tables to the words and numbers of the figure."""

import math
from dataclasses import replace

import pytest
from scipy.stats import beta

from evsyn.cells.cell import Cell, CellTable, Mark, Question
from evsyn.figures.forest import ForestContent, Invented, PoolToDraw, forest_content, unit_line
from evsyn.pooling.answer import Centre, PoolAnswer, Reading, Row, Show
from evsyn.pooling.result import Pooled, Status
from evsyn.pooling.tables import PooledTable
from evsyn.terms import Better, Interval, Source

COUNTS = ((4, 52), (0, 30), (3, 41), (6, 80), (2, 25))


def cell(i: int, events: int, total: int, *marks: Mark) -> Cell:
    source = Source(f"200{i}-alder.yaml", 20 + i, "arms.stent", "Table 2")
    return Cell(
        f"200{i}-alder", "Alder", 2000 + i, events, total, "attempted", "30 days",
        frozenset(marks), (source,),
    )  # fmt: skip


def pooled_row(k: int, *, weights: bool = True, shift: float = 0.0) -> Pooled:
    return Pooled(
        "random_effects", "logit", "dersimonian_laird", "ordinary", 0.95, k, Status.POOLED,
        estimate=0.06 + shift, low=0.04 + shift, high=0.09 + shift,
        prediction_low=0.01, prediction_high=0.2,
        weights=tuple((i + 1 + shift) / 100 for i in range(k)) if weights else (),
    )  # fmt: skip


def item(
    show: Show, k: int = 5, *, read: Row | None = Row.EXACT, weights: bool = True, level: str = "a"
) -> PooledTable:
    cells = tuple(
        cell(i, *COUNTS[i], *([Mark.ASSUMED] if i == 0 else [Mark.SUMMED] if i == 1 else []))
        for i in range(k)
    )
    centre = Centre(-2.7, 0.2, 0.05)
    rows = {Row.HEADLINE: pooled_row(k)}
    reading = None
    if read is not None:
        row = rows[Row.HEADLINE] if read is Row.HEADLINE else pooled_row(k, shift=-0.01)
        row = row if weights else pooled_row(k, weights=False)
        reading = Reading(read, (), row, centre, centre, centre, None, 0.06)
    counts = [(c.events, c.total) for c in cells]
    answer = PoolAnswer(
        tuple(x for x, _ in counts), tuple(n for _, n in counts), show, None, None,
        rows if show.pooled else {}, reading if show.pooled else None,
        second_prediction=Interval(0.005, 0.3, 0.95, "t"),
    )  # fmt: skip
    return PooledTable(CellTable(Question("perforation", "intent", level), cells), answer)


def drawn(pooled: PooledTable, **changes) -> PoolToDraw:
    return PoolToDraw(pooled, "Palliation", "One plain sentence.", **changes)


def said(*pools: PooledTable | PoolToDraw, **changes) -> ForestContent:
    return forest_content(
        [drawn(pool) if isinstance(pool, PooledTable) else pool for pool in pools],
        **{
            "title": "Perforation",
            "subtitle": "of those attempted",
            "status_line": "Published counts.",
            "caption": "Exact intervals.",
            "better": Better.FEWER,
            "invented": Invented.NOTHING,
        }
        | changes,
    )


def test_rows_carry_counts_exact_limits_marks_and_sources() -> None:
    (band,) = said(item(Show.SOME)).bands
    first = band.lines[0]
    assert (first.events, first.total, first.name) == (4, 52, "Alder 2000")
    # Second route: beta quantiles of SciPy.
    assert first.low == pytest.approx(beta.ppf(0.025, 4, 49), rel=1e-9)
    assert first.high == pytest.approx(beta.ppf(0.975, 5, 48), rel=1e-9)
    assert (first.marks, first.mark_words) == ("a", "a total assumed")
    assert first.sources[0].line == 20
    assert band.lines[1].low == 0
    assert band.counts == "15 of 228 in 5 studies"


def test_headline_and_reading_stand_apart_where_they_differ() -> None:
    (band,) = said(item(Show.SOME)).bands
    assert band.headline is not None
    assert band.reading is not None
    assert band.headline.estimate == 0.06
    assert band.reading.estimate == pytest.approx(0.05)
    assert band.reading.method == "exact model"
    assert not band.reading_is_headline


def test_headline_that_is_read_stands_once() -> None:
    (band,) = said(item(Show.SOME, read=Row.HEADLINE)).bands
    assert band.reading is None
    assert band.reading_is_headline
    assert band.prediction == (0.01, 0.2)


def test_nothing_to_read_leaves_the_headline_without_a_range() -> None:
    (band,) = said(item(Show.SOME, read=None)).bands
    assert band.headline is not None
    assert band.reading is None
    assert not band.reading_is_headline
    assert band.prediction is None
    assert band.wider_prediction is None


@pytest.mark.parametrize(("show", "k", "drawn"), [(Show.FEW, 4, False), (Show.SOME, 5, True)])
def test_range_comes_from_five_studies(show: Show, k: int, drawn: bool) -> None:
    (band,) = said(item(show, k)).bands
    assert (band.prediction == (0.01, 0.2)) == drawn
    assert (band.wider_prediction == (0.005, 0.3)) == drawn
    assert band.headline is not None


def test_a_range_that_does_not_exist_is_not_drawn() -> None:
    pooled = item(Show.SOME)
    reading = pooled.answer.reading
    row = replace(reading.pooled, prediction_low=math.nan, prediction_high=math.nan)
    answer = replace(pooled.answer, reading=replace(reading, pooled=row))
    (band,) = said(PooledTable(pooled.table, answer)).bands
    assert band.prediction is None


@pytest.mark.parametrize(
    ("show", "k"),
    [(Show.NOTHING, 0), (Show.ONE, 1), (Show.TWO, 2), (Show.ALL_ZERO, 3), (Show.REFUSED, 3)],
)
def test_what_is_not_pooled_has_no_summary_and_no_weights(show: Show, k: int) -> None:
    (band,) = said(item(show, k)).bands
    assert band.summaries == ()
    assert len(band.lines) == k
    assert all(line.weight is None for line in band.lines)
    assert band.prediction is None


def test_counts_are_not_summed_where_the_plan_refuses_to_pool() -> None:
    assert said(item(Show.REFUSED, 3)).bands[0].counts == "3 studies"
    assert said(item(Show.ONE, 1)).bands[0].counts == "4 of 52 in 1 study"


def test_weights_are_those_of_the_row_to_read_else_of_the_headline() -> None:
    read = said(item(Show.SOME)).bands[0].lines[0].weight
    assert read == pytest.approx(0.0099)
    fallen_back = said(item(Show.SOME, weights=False)).bands[0].lines[0].weight
    assert fallen_back == pytest.approx(0.01)


def test_a_band_without_rows_keeps_its_summary_and_its_letters_out_of_the_key() -> None:
    a, b = item(Show.SOME, level="a"), item(Show.SOME, 2, level="b")
    figure = said(drawn(a, has_rows=False), b)
    assert figure.bands[0].lines == ()
    assert figure.bands[0].headline is not None
    assert figure.mark_key == "a total assumed; s arms summed"
    assert said(drawn(a, has_rows=False)).mark_key == ""


def test_unit_stands_in_the_band_it_answers() -> None:
    a, b = item(Show.SOME, level="a"), item(Show.SOME, level="b")
    unit = unit_line("Hollowmere", 0, 20, Source("unit.yaml", 9))
    figure = said(a, drawn(b, unit=unit))
    assert [band.unit for band in figure.bands] == [None, unit]
    # 1 - 0.025 ** (1 / 20): closed form of the exact upper limit without events.
    assert unit.high == pytest.approx(1 - 0.025 ** (1 / 20))


def test_no_pool_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one"):
        said()


def test_a_year_in_the_label_is_not_repeated() -> None:
    (band,) = said(item(Show.SOME)).bands
    assert replace(band.lines[0], label="Alder 2000").name == "Alder 2000"
    assert replace(band.lines[0], year=None).name == "Alder"
