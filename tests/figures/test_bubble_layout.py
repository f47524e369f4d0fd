"""Bubbles over one number: nothing overlaps or is cut, and every mark stands where it should."""

import math
from itertools import pairwise

import pytest

from evsyn.figures.bubbles import Bubble, BubbleContent, LinePlace, bubble_layout
from evsyn.figures.formats import A4, SLIDE, web
from evsyn.figures.invented import Invented
from evsyn.figures.shapes import Circle, Polyline
from tests.figures.geometry import off_the_page, overlapping_words, texts, words_of
from tests.figures.made_up import STATUS

FORMATS = {"A4": A4, "slide": SLIDE, "phone": web(360), "laptop": web(900)}


def drawn(*studies, invented=Invented.ALL):
    bubbles = tuple(
        Bubble(year, rate, total, f"Study {n}", f"Study {n}, {year}: {rate:.2f} of {total}")
        for n, (year, rate, total) in enumerate(studies)
    )
    first, last = min(s[0] for s in studies), max(s[0] for s in studies)
    line = tuple(
        LinePlace(first + (last - first) * i / 10, 0.1 - 0.005 * i, 0.05, 0.3) for i in range(11)
    )
    ticks = tuple((float(year), f"{year}") for year in range(1990, 2031, 5))
    return BubbleContent(
        "Perforation by year of publication", "few studies", "Perforations, per 100 patients",
        "from {start}", "Year of publication", ticks, bubbles, line,
        "How to read it.", STATUS, invented,
    )  # fmt: skip


CONTENTS = {
    "few": drawn((1996, 0.0, 8), (2005, 0.12, 60), (2024, 0.04, 250)),
    "many": drawn(*((1996 + n % 20, (n % 7) / 50, 10 + 5 * n) for n in range(60))),
    "heaped": drawn(*((2000 + n % 2, 0.05, 100) for n in range(20)), invented=Invented.NOTHING),
    "near 100": drawn((1999, 1.0, 400), (2010, 0.97, 100), (2020, 1.0, 30)),
}
CASES = [(case, sheet) for case in CONTENTS for sheet in FORMATS]


@pytest.mark.parametrize(("case", "sheet"), CASES)
def test_nothing_overlaps_or_leaves_the_page(case, sheet):
    content = CONTENTS[case]
    (page,) = bubble_layout(content, FORMATS[sheet]).pages
    assert not overlapping_words(page)
    assert not off_the_page(page)
    assert min(text.size for text in texts(page)) >= {"A4": 7, "slide": 14}.get(sheet, 12)
    assert STATUS in " ".join(words_of(page, "status"))
    assert bool(page.of("watermark")) is (content.invented is Invented.ALL)


@pytest.mark.parametrize(("case", "sheet"), CASES)
def test_every_study_is_drawn_where_its_value_and_rate_are(case, sheet):
    content = CONTENTS[case]
    (page,) = bubble_layout(content, FORMATS[sheet]).pages
    spots = [
        (group.title, group.shapes[-1])
        for group in page.of("study")
        if isinstance(group.shapes[-1], Circle)
    ]
    assert len(spots) == len(content.bubbles)
    where = {title.partition(",")[0]: spot for title, spot in spots}
    for one, other in pairwise(content.bubbles):
        first, second = where[one.label], where[other.label]
        # Right is later, up is more, and equal values stand alike.
        for value, position in (
            (other.place - one.place, second.x - first.x),
            (other.rate - one.rate, first.y - second.y),
        ):
            assert math.copysign(1, value) == math.copysign(1, position) or value == 0
            assert (value == 0) == (abs(position) < 1e-9)
    words = {text.y for group in page.of("axis") for text in group.texts}
    lowest = max(spot.y + spot.radius for _, spot in spots)
    assert lowest < max(words)


def test_an_axis_that_does_not_start_at_0_says_so():
    near = drawn((1999, 1.0, 400), (2010, 0.97, 100))
    up = BubbleContent(
        near.title, near.subtitle, near.up, near.axis_starts, near.across, near.ticks,
        near.bubbles, tuple(LinePlace(p.place, 0.98, 0.97, 0.99) for p in near.line),
        near.caption, near.status_line, near.invented,
    )  # fmt: skip
    (page,) = bubble_layout(up, A4).pages
    assert any(words.endswith("from 96") for words in words_of(page, "axis"))
    (page,) = bubble_layout(CONTENTS["few"], A4).pages
    assert not any("from" in words for words in words_of(page, "axis"))


def test_area_follows_the_total():
    content = drawn((2000, 0.1, 100), (2010, 0.1, 400))
    (page,) = bubble_layout(content, A4).pages
    large, small = (group.shapes[-1].radius for group in page.of("study"))
    assert large / small == pytest.approx(2)


def test_the_line_runs_from_the_first_study_to_the_last():
    content = CONTENTS["few"]
    (page,) = bubble_layout(content, A4).pages
    (line,) = (s for g in page.of("limits") for s in g.shapes if isinstance(s, Polyline))
    xs = [group.shapes[-1].x for group in page.of("study")]
    assert (line.points[0][0], line.points[-1][0]) == pytest.approx((min(xs), max(xs)))


def test_who_cannot_see_it_is_told_every_study():
    said = bubble_layout(CONTENTS["few"], A4).description
    assert said.startswith("INVENTED DATA")
    assert all(one.said in said for one in CONTENTS["few"].bubbles)
