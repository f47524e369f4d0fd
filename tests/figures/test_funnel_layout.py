"""Performance funnels: nothing overlaps or is cut, and every mark stands where its count says."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from evsyn.figures.formats import A4, SLIDE, web
from evsyn.figures.funnel import (
    Curve,
    FunnelContent,
    FunnelPoint,
    FunnelWords,
    Stroke,
    funnel_layout,
)
from evsyn.figures.funnel.marks import curve_marks
from evsyn.figures.funnel.plot import apart, joint_labels
from evsyn.figures.funnel.scales import Ground, shares_for
from evsyn.figures.funnel.sheet import Sheet
from evsyn.figures.invented import Invented
from evsyn.figures.own_count import OwnCount
from evsyn.figures.palette import UNIT
from evsyn.figures.shapes import Circle, FigureLayout, Group, Page, Polygon, Polyline, Rect
from evsyn.figures.ticks import RateScale
from evsyn.terms import Better
from evsyn.wording.audience import INSIDE_SHORT, OUTSIDE_MARK
from tests.figures.geometry import off_the_page, overlapping_words, texts, words_of
from tests.figures.made_up import STATUS
from tests.figures.made_up_funnels import LONG, around_range, around_target, counts

FORMATS = {"A4": A4, "slide": SLIDE, "phone": web(360), "narrowest": web(320), "laptop": web(900)}
SEVERAL = [OwnCount.one_of(range(8, 13), 40), OwnCount.one_of(range(1, 8), 70), OwnCount.withheld()]
CONTENTS = {
    "one, target": around_target([OwnCount.exact(9, 41)]),
    "one, range": around_range([OwnCount.exact(3, 27)], invented=Invented.NOTHING),
    "eight": around_target(counts(8)),
    "twelve": around_range(counts(12, spread=1.0)),
    "forty": around_target(counts(40)),
    "forty, range": around_range(counts(40, seed=9)),
    "alike": around_range([OwnCount.exact(3, 41)] * 12),
    "told": around_target(SEVERAL, ["Alder", "Bilberry", "Campion"]),
    "marked": replace(around_target(counts(3)), mark=OUTSIDE_MARK, short_mark=INSIDE_SHORT),
    "high": around_target(counts(9, rate=0.9), rate=0.9),
    "few": around_range([OwnCount.exact(7, 8)], rate=0.93, is_judged=False),
    "long": around_target(counts(5), [LONG] * 5),
    "ends": around_target([OwnCount.exact(0, 5000), OwnCount.exact(1, 1)]),
}
CASES = [(case, sheet) for case in CONTENTS for sheet in FORMATS]


@cache
def laid_out(case: str, sheet: str) -> FigureLayout:
    return funnel_layout(CONTENTS[case], FORMATS[sheet])


@pytest.mark.parametrize(("case", "sheet"), CASES)
def test_nothing_overlaps_or_leaves_the_page(case: str, sheet: str) -> None:
    fmt = FORMATS[sheet]
    for page in laid_out(case, sheet).pages:
        assert page.width == fmt.width
        assert fmt.height is None or page.height == fmt.height
        assert not overlapping_words(page)
        assert not off_the_page(page)


@pytest.mark.parametrize(("case", "sheet"), CASES)
def test_type_is_large_enough_and_the_status_line_on_every_page(case: str, sheet: str) -> None:
    least, layout = {"A4": 7, "slide": 14}.get(sheet, 12), laid_out(case, sheet)
    is_invented = CONTENTS[case].invented is Invented.ALL
    for number, page in enumerate(layout.pages, start=1):
        assert min(text.size for text in texts(page)) >= least
        turned = f" Page {number} of {len(layout.pages)}." if len(layout.pages) > 1 else ""
        assert " ".join(words_of(page, "status")) == STATUS + turned
        assert bool(page.of("invented")) is is_invented
        assert bool(page.of("watermark")) is is_invented


@pytest.mark.parametrize(("case", "sheet"), CASES)
def test_every_unit_is_drawn_and_named(case: str, sheet: str) -> None:
    pages, drawn = laid_out(case, sheet).pages, CONTENTS[case].points
    drawn = [point for point in drawn if point.is_drawn]
    groups = pages[0].of("unit")
    assert len(groups) == len(drawn)
    said = [word for page in pages for role in ("unit", "key") for word in words_of(page, role)]
    for point, group in zip(drawn, groups, strict=True):
        assert f"{point.label}: {point.count}" in group.title
        assert any(point.count in words for words in said)
        assert not point.said or any(point.said in words for words in said)
    keyed = words_of(pages[-1], "key")
    if keyed and sheet in ("A4", "slide"):
        beside = ", ".join(words_of(pages[0], "unit")).split(", ")
        assert sorted(beside, key=int) == [str(i + 1) for i in range(len(drawn))]


@pytest.mark.parametrize(("case", "sheet"), CASES)
def test_no_words_hide_a_mark(case: str, sheet: str) -> None:
    page = laid_out(case, sheet).pages[0]
    marks = [shape for group in page.of("unit") for shape in group.shapes]
    for mark in marks:
        if isinstance(mark, Circle):
            for text in texts(page):
                box = text.box
                away_x = max(box.left - mark.x, mark.x - box.right, 0.0)
                away_y = max(box.top - mark.y, mark.y - box.bottom, 0.0)
                # Tick values may come as near as the axis; words of units may not touch.
                if text.colour == UNIT:
                    assert max(away_x, away_y) > 0


@pytest.mark.parametrize(("case", "sheet"), CASES)
def test_it_says_that_it_is_no_funnel_of_studies(case: str, sheet: str) -> None:
    layout = laid_out(case, sheet)
    assert layout.title.startswith("Performance funnel")
    axis = words_of(layout.pages[0], "axis")
    assert "cases of the unit" in axis
    assert any(words.startswith("share of cases") for words in axis)
    for page in layout.pages:
        assert "not the funnel plot of small studies" in " ".join(words_of(page, "caption"))


def ground_of(content: FunnelContent, page: Page) -> Ground:
    """Read the plot's rectangle back from the page."""
    box = page.of("wash")[0].shapes[0].box
    return Ground(shares_for(content), content.cases_end, box.left, box.right, box.top, box.bottom)


def test_marks_stand_at_their_cases_and_share() -> None:
    content = CONTENTS["eight"]
    page = laid_out("eight", "A4").pages[0]
    box = page.of("wash")[0].shapes[0].box
    shares = shares_for(content)
    for point, group in zip(content.points, page.of("unit"), strict=True):
        mark = next(s for s in group.shapes if isinstance(s, Circle | Polygon | Rect))
        if isinstance(mark, Circle):
            x, y = mark.x, mark.y
        elif isinstance(mark, Rect):
            x, y = (mark.box.left + mark.box.right) / 2, (mark.box.top + mark.box.bottom) / 2
        else:
            x, y = np.mean(mark.points, axis=0)
        cases = (x - box.left) / (box.right - box.left) * content.cases_end
        share = (box.bottom - y) / (box.bottom - box.top) * (shares.end - shares.start)
        assert cases == pytest.approx(point.cases)
        assert share == pytest.approx(100 * point.own.possible[0] / point.cases)


def test_flags_differ_by_shape_and_word() -> None:
    page = laid_out("eight", "A4").pages[0]
    kinds = {}
    for point, group in zip(CONTENTS["eight"].points, page.of("unit"), strict=True):
        mark = next(s for s in group.shapes if isinstance(s, Circle | Polygon | Rect))
        kinds[point.said] = type(mark)
        if point.said:
            assert any(point.said in text.words and text.bold for text in group.texts)
    assert kinds == {"": Circle, "alert, above": Polygon, "alarm, above": Rect}


def strokes(page: Page) -> list[Polyline]:
    return [s for group in page.of("limits") for s in group.shapes if isinstance(s, Polyline)]


def test_one_unit_has_stepped_lines_and_several_have_smooth_ones() -> None:
    def is_stepped(line: Polyline) -> bool:
        pairs = zip(line.points, line.points[1:], strict=False)
        return all(a[0] == pytest.approx(b[0]) or a[1] == pytest.approx(b[1]) for a, b in pairs)

    alone = laid_out("one, target", "A4").pages[0]
    several = laid_out("eight", "A4").pages[0]
    assert all(is_stepped(line) for line in strokes(alone))
    assert not any(is_stepped(line) for line in strokes(several) if len(line.points) > 50)
    assert "stepped" in " ".join(words_of(alone, "caption"))
    assert "smooth" in " ".join(words_of(several, "caption"))


def test_a_unit_alone_lies_above_the_stepped_line_exactly_if_it_is_flagged() -> None:
    for events in range(12):
        content = around_target([OwnCount.exact(events, 41)])
        (point,) = content.points
        line = next(c for c in content.curves if c.stroke is Stroke.ALERT and c.is_upper)
        height = {n: share for n, share in line.places if abs(n - 41) < 0.6}
        assert (events / 41 > max(height.values())) == bool(point.said)


def test_widened_lines_stand_only_where_units_differ_by_more_than_chance() -> None:
    legend = words_of(laid_out("forty", "A4").pages[0], "legend")
    assert any("widened" in words for words in legend)
    assert "differ by more than chance" in " ".join(
        words_of(laid_out("forty", "A4").pages[0], "caption")
    )
    calm = around_target(counts(12, spread=0.0, seed=2))
    page = funnel_layout(calm, A4).pages[0]
    assert not any("widened" in words for words in words_of(page, "legend"))
    assert "no more around the target than chance allows" in " ".join(words_of(page, "caption"))


def test_a_range_has_a_band_and_no_alarm_and_few_studies_only_its_dashed_edge() -> None:
    page = laid_out("one, range", "A4").pages[0]
    filled = [s for g in page.of("limits") for s in g.shapes if isinstance(s, Polygon)]
    assert len(filled) == 1
    said = " ".join(text.words for text in texts(page)).lower()
    assert "alert" not in said
    assert "alarm" not in said
    assert "99.8" not in said
    assert "range ordinary new units show" in said
    few = laid_out("few", "A4").pages[0]
    assert not [s for g in few.of("limits") for s in g.shapes if isinstance(s, Polygon)]
    assert all(line.dashed for line in strokes(few))
    assert "unreliable, no verdict" in " ".join(words_of(few, "legend"))


def test_the_band_holds_exactly_the_counts_of_the_range() -> None:
    content = CONTENTS["one, range"]
    edges = {round(n + 0.5): share for n, share in content.band.upper}
    # At 27 cases the range of this made-up pool ends at 6.
    assert 6 / 27 < edges[27] < 7 / 27


def test_a_count_told_as_one_of_several_is_a_bracket_and_withheld_ones_have_no_mark() -> None:
    content = CONTENTS["told"]
    page = laid_out("told", "A4").pages[0]
    ground, groups = ground_of(content, page), page.of("unit")
    assert len(groups) == 2
    (bracket,) = [s for s in groups[0].shapes if isinstance(s, Polyline)]
    ys = [y for _, y in bracket.points]
    assert max(ys) == pytest.approx(ground.y(8 / 40))
    assert min(ys) == pytest.approx(ground.y(12 / 40))
    assert any("between 8 and 12 of 40" in text.words for text in groups[0].texts)
    assert not [s for g in groups for s in g.shapes if isinstance(s, Circle)]
    assert "Campion: own count withheld" in laid_out("told", "A4").description


def test_high_rates_are_shown_up_to_100_and_say_where_the_axis_starts() -> None:
    shares = shares_for(CONTENTS["high"])
    assert shares.end == 100
    assert shares.start > 50
    axis = " ".join(words_of(laid_out("high", "A4").pages[0], "axis"))
    assert f"axis starts at {shares.start:g}%, not at 0" in axis
    assert "more is better" in axis


def test_lines_are_cut_at_the_ends_of_the_axis() -> None:
    ground = Ground(RateScale(0, 20, 5), 10, 0.0, 100.0, 0.0, 100.0)
    (run,) = ground.runs(((0.0, 0.3), (10.0, 0.1)))
    assert run == [(pytest.approx(50), pytest.approx(0)), (pytest.approx(100), pytest.approx(50))]
    first, second = ground.runs(((0.0, 0.1), (4.0, 0.3), (5.0, 0.3), (9.0, 0.1)))
    assert first[-1] == (pytest.approx(20), pytest.approx(0))
    assert second[0] == (pytest.approx(70), pytest.approx(0))


def test_a_stepped_line_leaves_no_stump_at_the_top_of_the_frame() -> None:
    """Left of where it stays in the frame it is drawn only where the unit stands."""
    steps = ((0.0, 0.3), (2.0, 0.3), (2.0, 0.15), (3.0, 0.15), (3.0, 0.3), (5.0, 0.3), (5.0, 0.1))
    curve = Curve(Stroke.ALARM, True, (*steps, (10.0, 0.1)))
    ground = Ground(RateScale(0, 20, 5), 10, 0.0, 100.0, 0.0, 100.0)
    assert len(ground.runs(curve.places)) == 2
    (kept,) = curve_marks(ground, curve, 1.0, cases=[8])
    assert kept.points[0] == (pytest.approx(50), pytest.approx(0))
    assert len(curve_marks(ground, curve, 1.0, cases=[3])) == 2


def test_the_plot_fills_the_page() -> None:
    for case in ("one, target", "one, range", "eight"):
        (page,) = laid_out(case, "A4").pages
        foot = max(t.box.bottom for g in page.of("caption") for t in g.texts)
        status = min(t.box.top for g in page.of("status") for t in g.texts)
        assert status - foot < 0.1 * page.height


def test_names_of_lines_are_moved_apart() -> None:
    assert apart([10, 11, 40], 5, 100) == [10, 15, 40]
    assert apart([90, 95, 99], 10, 100) == [80, 90, 100]
    assert apart([], 10, 100) == []


def test_units_with_the_same_count_share_a_label() -> None:
    told = [OwnCount.exact(3, 41), OwnCount.exact(2, 41), OwnCount.exact(3, 41)]
    points = [FunnelPoint(name, own, "3 of 41") for name, own in zip("ABC", told, strict=True)]
    assert joint_labels(points, is_numbered=True) == ("1, 3", "2", "")
    assert joint_labels(points, is_numbered=False)[0] == "A, C: 3 of 41"


def test_nothing_to_compare_is_a_sentence_without_axes() -> None:
    content = FunnelContent(
        title="Performance funnel: perforation",
        subtitle="",
        better=Better.FEWER,
        centre=None,
        points=(),
        cases_end=50,
        status_line=STATUS,
        caption="",
        short_caption="",
        invented=Invented.ALL,
        words=FunnelWords(),
        nothing="Hollowmere: 3 of 41. No comparison: one study says nothing.",
    )
    for fmt in FORMATS.values():
        layout = funnel_layout(content, fmt)
        (page,) = layout.pages
        assert not page.of("axis")
        assert "No comparison" in " ".join(words_of(page, "sentence"))
        assert page.of("invented")
        assert "No comparison" in layout.description


def test_ticks_of_cases_have_room() -> None:
    for fmt in FORMATS.values():
        sheet = Sheet.across(CONTENTS["forty"], fmt, fmt.sizes[-1])
        ticks = sheet.case_ticks()
        assert ticks[0] == 0
        assert len(ticks) >= 3
        assert ticks[-1] <= CONTENTS["forty"].cases_end


def test_units_carry_their_source() -> None:
    groups: tuple[Group, ...] = laid_out("eight", "A4").pages[0].of("unit")
    assert [group.id for group in groups] == [f"source-unit.yaml-line-{10 + i}" for i in range(8)]
