"""Count strips: nothing overlaps or is cut, and every mark stands where its number says."""

from dataclasses import replace
from functools import cache

import pytest

from evsyn.figures.formats import A4, SLIDE, PageFormat, web
from evsyn.figures.invented import Invented
from evsyn.figures.own_count import OwnCount
from evsyn.figures.palette import band_colours
from evsyn.figures.shapes import FigureLayout, Group, Line, Page, Polygon, Polyline, Rect
from evsyn.figures.strip import StripContent, strip_layout
from evsyn.wording.audience import INSIDE_SHORT, OUTSIDE_MARK
from tests.figures.geometry import corners, off_the_page, overlapping_words, texts, words_of
from tests.figures.made_up import STATUS
from tests.figures.made_up_strips import LONG, exact, strip, strips, uncompared

FORMATS = {"A4": A4, "slide": SLIDE, "phone": web(360), "narrowest": web(320), "laptop": web(900)}
CONTENTS = {
    "one": strips(exact(3, 27)),
    "sizes": strips(
        exact(1, 1),
        exact(1, 2),
        exact(38, 400, rate=0.08),
        exact(900, 5000, rate=0.2),
        exact(60, 60, rate=0.93),
        exact(30, 60),
        invented=Invented.NOTHING,
    ),
    "told": strips(
        strip(OwnCount.one_of(range(8, 13), 40), 40),
        strip(OwnCount.one_of(range(1, 8), 60), 60),
        strip(OwnCount.one_of(range(4993, 5000), 5000), 5000, rate=0.8),
        strip(OwnCount.withheld(27)),
        exact(3, 27, k=4, is_judged=False),
        uncompared(OwnCount.withheld()),
        uncompared(OwnCount.exact(3, 41)),
    ),
    "twelve": strips(*(exact(i % 5, 20 + 3 * i, hue=i // 4, line=i) for i in range(12))),
    "long": strips(exact(3, 27, title=LONG), uncompared(OwnCount.exact(2, 9), LONG), title=LONG),
    "marked": strips(exact(3, 27), exact(2, 9), mark=OUTSIDE_MARK, short_mark=INSIDE_SHORT),
    "empty": strips(uncompared(OwnCount.exact(3, 41))),
}
CASES = [(case, sheet) for case in CONTENTS for sheet in FORMATS]


@cache
def laid_out(case: str, sheet: str) -> FigureLayout:
    return strip_layout(CONTENTS[case], FORMATS[sheet])


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
    least = {"A4": 7, "slide": 14}.get(sheet, 12)
    layout, said = laid_out(case, sheet), CONTENTS[case]
    for number, page in enumerate(layout.pages, start=1):
        assert min(text.size for text in texts(page)) >= least
        turned = f" Page {number} of {len(layout.pages)}." if len(layout.pages) > 1 else ""
        assert " ".join(words_of(page, "status")) == STATUS + turned
        assert bool(page.of("watermark")) is (said.invented is Invented.ALL)


@pytest.mark.parametrize(("case", "sheet"), CASES)
def test_pages_lose_no_strip(case: str, sheet: str) -> None:
    said = CONTENTS[case]
    drawn = [group for page in laid_out(case, sheet).pages for group in page.of("chances")]
    assert len(drawn) == len(said.strips)
    for item, group in zip(said.strips, drawn, strict=True):
        told = " ".join(text.words for text in group.texts)
        assert item.own_words in told
        assert f"{item.title}: {item.own_words}" in group.title


@pytest.mark.parametrize(("case", "sheet"), CASES)
def test_numbers_over_columns_are_crossed_by_no_tick(case: str, sheet: str) -> None:
    for page in laid_out(case, sheet).pages:
        for group in page.of("chances"):
            ticks = [s for s in group.shapes if isinstance(s, Line) and s.y1 == s.y2]
            for text in group.texts:
                if text.anchor != "middle":
                    continue
                # Figures are about 0.73 of the type size high, and hang below nothing.
                top, bottom = text.y - 0.73 * text.size, text.y
                for tick in ticks:
                    is_across = tick.x1 < text.box.right and tick.x2 > text.box.left
                    assert not (is_across and top < tick.y1 < bottom), (group.title, text.words)


def only(content: StripContent, fmt: PageFormat = A4) -> tuple[Page, Group]:
    page = strip_layout(content, fmt).pages[0]
    return page, page.of("chances")[0]


def rectangles(group: Group) -> list[Rect]:
    return [shape for shape in group.shapes if isinstance(shape, Rect) and shape.fill is not None]


def solid_bars(group: Group) -> list[Polygon]:
    return [s for s in group.shapes if isinstance(s, Polygon) and len(s.points) == 6]


def test_columns_are_as_high_as_their_chances() -> None:
    content = strips(exact(3, 27))
    _, group = only(content)
    columns = content.strips[0].columns
    heights = [shape.box.bottom - shape.box.top for shape in rectangles(group)]
    assert len(heights) == len(columns.ordinary)
    for height, chance in zip(heights, columns.ordinary, strict=True):
        assert height / max(heights) == pytest.approx(chance / max(columns.ordinary), abs=1e-9)


def test_ours_is_dark_marked_and_named_and_what_lies_beyond_is_open() -> None:
    content = strips(exact(3, 27))
    page, group = only(content)
    columns, colours = content.strips[0].columns, band_colours(0)
    fills = [shape.fill for shape in rectangles(group)]
    assert fills.index(colours.strong) == 3 - columns.first
    assert fills.count(colours.strong) == 1
    beyond = fills[columns.first_more - columns.first :]
    assert set(beyond) == {"#FFFFFF"}
    (triangle,) = [s for s in group.shapes if isinstance(s, Polygon) and len(s.points) == 3]
    ours = rectangles(group)[3 - columns.first].box
    assert triangle.points[0][0] == pytest.approx((ours.left + ours.right) / 2)
    assert "ours: 3 of 27" in [text.words for text in group.texts]
    assert {"ours", "where the range ends"} <= set(words_of(page, "legend"))


def test_a_bar_stands_at_the_first_count_called_more_and_the_last_called_fewer() -> None:
    content = strips(exact(30, 60, rate=0.5, tau=0.3))
    _, group = only(content)
    columns, boxes = content.strips[0].columns, [shape.box for shape in rectangles(group)]
    fewer, more = solid_bars(group)
    inner, outer = boxes[columns.last_fewer + 1 - columns.first], boxes[columns.last_fewer]
    outer = boxes[columns.last_fewer - columns.first]
    assert outer.left < max(x for x, _ in fewer.points) < inner.left
    first, before = (boxes[columns.first_more - columns.first - i] for i in (0, 1))
    assert before.right < min(x for x, _ in more.points) < first.right
    assert min(y for _, y in more.points) < min(box.top for box in boxes)


def test_no_bar_where_no_count_is_called_so() -> None:
    _, group = only(strips(exact(3, 27)))
    assert len(solid_bars(group)) == 1
    assert "fewer: none possible" in [text.words for text in group.texts]


def test_few_studies_have_open_dashed_columns_no_bar_and_say_so() -> None:
    page, group = only(strips(exact(3, 27, k=4, is_judged=False)))
    assert not solid_bars(group)
    assert "unreliable, no verdict" in [text.words for text in group.texts]
    others = [shape for shape in rectangles(group) if shape.fill != band_colours(0).strong]
    assert {(shape.fill, shape.dashed) for shape in others} == {("#FFFFFF", True)}
    assert "where the range ends" not in words_of(page, "legend")


def test_a_count_told_as_one_of_several_is_a_bracket_over_all_of_them() -> None:
    own = OwnCount.one_of(range(8, 13), 40)
    content = strips(strip(own, 40))
    page, group = only(content)
    (bracket,) = [shape for shape in group.shapes if isinstance(shape, Polyline)]
    boxes, first = [shape.box for shape in rectangles(group)], content.strips[0].columns.first
    xs = [x for x, _ in bracket.points]
    assert min(xs) < boxes[8 - first].left
    assert max(xs) > boxes[12 - first].right
    assert min(xs) > boxes[7 - first].right
    assert band_colours(0).strong not in {shape.fill for shape in rectangles(group)}
    assert "ours: between 8 and 12 of 40" in [text.words for text in group.texts]
    assert "ours is one of these" in words_of(page, "legend")


def test_a_withheld_count_has_words_and_no_mark() -> None:
    page, group = only(strips(strip(OwnCount.withheld(27))))
    assert "own count withheld" in [text.words for text in group.texts]
    assert not [s for s in group.shapes if isinstance(s, Polygon) and len(s.points) == 3]
    assert not [s for s in group.shapes if isinstance(s, Polyline)]
    assert "ours" not in words_of(page, "legend")


def test_an_uncompared_count_says_why_and_has_no_columns() -> None:
    page, group = only(strips(uncompared(OwnCount.exact(3, 41))))
    words = " ".join(text.words for text in group.texts)
    assert "ours: 3 of 41" in words
    assert "No comparison" in words
    assert not rectangles(group)
    assert not page.of("legend")
    assert not page.of("heading")


def test_a_slide_takes_the_short_words() -> None:
    item = replace(exact(3, 27), short_sentence="Within 0 to 6.")
    content = strips(item, short_caption="Bars: 2.5%.")
    said = [text.words for text in texts(strip_layout(content, SLIDE).pages[0])]
    assert "Within 0 to 6." in said
    assert "Bars: 2.5%." in said


def test_twelve_strips_stand_on_two_pages_of_a4() -> None:
    assert len(strip_layout(CONTENTS["twelve"], A4).pages) <= 2


def test_description_holds_the_numbers() -> None:
    said = strip_layout(strips(exact(3, 27)), A4).description
    assert said.startswith("INVENTED DATA")
    for words in ("ours: 3 of 27", "of 100 ordinary new units", "from 7: more than the range"):
        assert words in said


def test_rows_carry_their_source() -> None:
    _, group = only(strips(exact(3, 27, line=41)))
    assert group.id == "source-unit-hollowmere.yaml-line-41"
    assert group.title.endswith("unit-hollowmere.yaml, line 41") or "41" in group.title


def test_no_strip_and_no_room_are_refused() -> None:
    with pytest.raises(ValueError, match="at least one"):
        strip_layout(strips(), A4)
    with pytest.raises(ValueError, match="no room"):
        strip_layout(strips(exact(3, 27), short_caption="Many words. " * 300), SLIDE)


def test_the_place_of_a_strip_holds_all_of_it() -> None:
    for page in strip_layout(CONTENTS["told"], A4).pages:
        for group, shade in zip(page.of("chances"), page.of("wash"), strict=True):
            box = shade.shapes[0].box
            for shape in group.shapes:
                for x, y in corners(shape):
                    assert box.left - 0.01 <= x <= box.right + 0.01
                    assert box.top - 0.01 <= y <= box.bottom + 0.01
