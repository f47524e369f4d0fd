"""Marks say what the numbers say, read back through the axis."""

import math
from dataclasses import replace

import pytest

from evsyn.figures.forest import Band, forest_layout
from evsyn.figures.forest.scale import Axis
from evsyn.figures.forest.sheet import Sheet
from evsyn.figures.formats import A4, SLIDE, web
from evsyn.figures.palette import PAPER, band_colours
from evsyn.figures.shapes import Circle, Group, Line, Page, Polygon, Rect
from evsyn.pooling.answer import Show
from tests.figures.made_up import band, content, studies, study

STRONG, PALE = band_colours(0).strong, band_colours(0).pale


def page_and_axis(*bands: Band) -> tuple[Page, Axis]:
    said = content(*bands)
    page = forest_layout(said, A4).pages[0]
    size = page.of("sentence")[0].texts[0].size
    return page, Sheet.across(said, A4, size).axis


def bars(group: Group) -> list[Polygon]:
    return [shape for shape in group.shapes if isinstance(shape, Polygon)]


def ranges(group: Group) -> list[Rect]:
    return [s for s in group.shapes if isinstance(s, Rect) and s.stroke == STRONG]


def read_back(axis: Axis, x: float) -> float:
    share = (x - axis.left) / (axis.right - axis.left)
    return (axis.scale.start + share * (axis.scale.end - axis.scale.start)) / 100


def test_summary_bars_end_at_the_limits_and_slit_at_the_estimate() -> None:
    item = band(studies(12))
    page, axis = page_and_axis(item)
    group = page.of("summary")[0]
    slits = [shape for shape in group.shapes if isinstance(shape, Line)]
    for summary, bar, slit in zip(item.summaries, bars(group), slits, strict=True):
        xs = [x for x, _ in bar.points]
        assert read_back(axis, min(xs)) == pytest.approx(summary.low)
        assert read_back(axis, max(xs)) == pytest.approx(summary.high)
        assert slit.x1 == slit.x2
        assert read_back(axis, slit.x1) == pytest.approx(summary.estimate)


def test_study_line_and_spot_stand_at_their_numbers() -> None:
    lines = studies(12)
    page, axis = page_and_axis(band(lines))
    for line, group in zip(lines, page.of("study"), strict=True):
        stroke = next(s for s in group.shapes if isinstance(s, Line))
        spot = next(s for s in group.shapes if isinstance(s, Circle))
        assert read_back(axis, spot.x) == pytest.approx(line.estimate)
        assert read_back(axis, stroke.x1) == pytest.approx(line.low)
        if not axis.beyond_right(line.high):
            assert read_back(axis, stroke.x2) == pytest.approx(line.high)


def test_spot_area_follows_weight() -> None:
    lines = (study(4, 80, weight=0.1), study(8, 160, weight=0.2), study(16, 320, weight=0.7))
    page, _ = page_and_axis(band(lines, show=Show.FEW))
    radii = [s.radius for g in page.of("study") for s in g.shapes if isinstance(s, Circle)]
    assert radii[1] / radii[2] == pytest.approx(math.sqrt(0.2 / 0.7))
    assert radii[0] < radii[1]


def test_spots_are_alike_where_nothing_is_pooled() -> None:
    lines = (study(1, 8, weight=None), study(20, 300, weight=None))
    page, _ = page_and_axis(band(lines, show=Show.TWO))
    radii = {s.radius for g in page.of("study") for s in g.shapes if isinstance(s, Circle)}
    assert len(radii) == 1


def test_an_interval_that_leaves_the_axis_ends_in_an_arrow_and_no_other_does() -> None:
    lines = (*(study(4, 120, line=i) for i in range(9)), study(0, 4))
    page, axis = page_and_axis(band(lines, estimate=0.03))
    heads = [len(bars(group)) for group in page.of("study")]
    assert heads == [0] * 9 + [1]
    tip = bars(page.of("study")[-1])[0].points[0][0]
    assert tip > axis.right
    legend = [text.words for text in page.of("legend")[0].texts]
    assert "interval goes on beyond the axis" in legend


def test_arrows_point_left_where_a_high_axis_is_left() -> None:
    lines = (*(study(116, 120, line=i) for i in range(9)), study(4, 4))
    page, axis = page_and_axis(band(lines, estimate=0.95))
    assert axis.scale.start > 0
    tip = bars(page.of("study")[-1])[0].points[0][0]
    assert tip < axis.left


def test_rows_of_0_and_100_per_cent_stand_at_the_ends() -> None:
    page, axis = page_and_axis(band((study(0, 30), study(30, 30)), show=Show.TWO))
    spots = [s.x for g in page.of("study") for s in g.shapes if isinstance(s, Circle)]
    assert spots == [axis.left, axis.right]
    words = [text.words for group in page.of("study") for text in group.texts]
    assert "0 of 30" in words
    assert "30 of 30" in words


@pytest.mark.parametrize(
    "show", [Show.NOTHING, Show.ONE, Show.TWO, Show.ALL_ZERO, Show.ALL_FULL, Show.REFUSED]
)
@pytest.mark.parametrize("fmt", [A4, SLIDE, web(360)])
def test_bands_that_are_not_pooled_have_rows_and_a_sentence_and_no_summary(show, fmt) -> None:
    lines = () if show is Show.NOTHING else (study(2, 40),)
    page = forest_layout(content(band(lines, show=show)), fmt).pages[0]
    assert not page.of("summary")
    assert len(page.of("study")) == len(lines)
    assert page.of("sentence")


@pytest.mark.parametrize(("show", "drawn"), [(Show.FEW, 0), (Show.SOME, 1), (Show.MANY, 1)])
def test_prediction_range_is_drawn_from_five_studies(show: Show, drawn: int) -> None:
    item = band(studies(4), show=show)
    page, axis = page_and_axis(item)
    found = [shape for shape in ranges(page.of("summary")[0]) if shape.fill == PALE]
    assert len(found) == drawn
    for shape in found:
        assert read_back(axis, shape.box.left) == pytest.approx(item.prediction[0])
        assert read_back(axis, shape.box.right) == pytest.approx(item.prediction[1])
    legend = [text.words for group in page.of("legend") for text in group.texts]
    assert ("95% range for an ordinary new setting" in legend) == bool(drawn)


def test_range_that_could_have_been_missed_is_an_outline() -> None:
    page, _ = page_and_axis(band(studies(12), wider=True))
    outline = [shape for shape in ranges(page.of("summary")[0]) if shape.fill is None]
    assert len(outline) == 1
    assert outline[0].dashed


def test_range_lies_behind_both_summary_marks() -> None:
    page, _ = page_and_axis(band(studies(12)))
    group = page.of("summary")[0]
    behind = ranges(group)[0].box
    for bar in bars(group):
        assert all(behind.top <= y <= behind.bottom for _, y in bar.points)
    assert group.shapes.index(ranges(group)[0]) < group.shapes.index(bars(group)[0])


def test_reading_row_is_open_and_named_where_it_differs() -> None:
    page, _ = page_and_axis(band(studies(12)))
    group = page.of("summary")[0]
    assert [bar.fill for bar in bars(group)] == [STRONG, PAPER]
    words = [text.words for text in group.texts]
    assert "headline" in words
    assert "read this" in words


def test_one_filled_bar_where_the_headline_is_read() -> None:
    page, _ = page_and_axis(band(studies(12), apart=False))
    group = page.of("summary")[0]
    assert [bar.fill for bar in bars(group)] == [STRONG]
    assert "headline, read this" in [text.words for text in group.texts]


def test_headline_without_a_row_to_read_is_not_called_so() -> None:
    item = replace(band(studies(12), apart=False), reading_is_headline=False, prediction=None)
    page, _ = page_and_axis(item)
    words = [text.words for text in page.of("summary")[0].texts]
    assert "headline" in words
    assert not any("read" in word for word in words)


@pytest.mark.parametrize("fmt", [A4, SLIDE, web(360), web(900)])
def test_unit_has_its_own_shape_and_word(fmt) -> None:
    page = forest_layout(content(band(studies(6), unit=True)), fmt).pages[0]
    (group,) = page.of("unit")
    assert group.texts[0].words == "this unit: Hollowmere"
    assert group.id == "source-unit-hollowmere.yaml-line-14"
    triangle = [bar for bar in bars(group) if len(bar.points) == 3]
    assert triangle
    assert not any(isinstance(shape, Circle) for shape in group.shapes)


def test_row_title_holds_numbers_marks_and_place() -> None:
    page, _ = page_and_axis(band((study(4, 52, marks="a"),), show=Show.ONE))
    # 7.7% (2.1% to 18.5%): exact limits of 4 of 52 by beta quantiles, a second route in SciPy.
    from scipy.stats import beta

    low, high = beta.ppf(0.025, 4, 49), beta.ppf(0.975, 5, 48)
    (group,) = page.of("study")
    assert group.title == (
        f"Alder 2009: 4 of 52, 7.7% ({100 * low:.1f}% to {100 * high:.1f}%); total assumed. "
        "2009-alder.yaml, line 23 (Table 2, p. 5)"
    )
    assert group.id == "source-2009-alder.yaml-line-23"


def test_a_source_used_twice_gets_two_ids() -> None:
    line = study(4, 52)
    page, _ = page_and_axis(band((line,), show=Show.ONE), band((line,), show=Show.ONE))
    assert [group.id for group in page.of("study")] == [
        "source-2009-alder.yaml-line-23",
        "source-2009-alder.yaml-line-23_2",
    ]
