"""Ladders of pooled answers: nothing overlaps or is cut, and every mark stands where it should."""

from dataclasses import replace

import pytest

from evsyn.figures.formats import A4, SLIDE, web
from evsyn.figures.invented import Invented
from evsyn.figures.ladder import LadderContent, Rung, ladder_layout
from evsyn.figures.ladder.sheet import Sheet, scale_for
from evsyn.figures.shapes import Circle, Polygon
from tests.figures.geometry import off_the_page, overlapping_words, texts, words_of
from tests.figures.made_up import STATUS

FORMATS = {"A4": A4, "slide": SLIDE, "phone": web(360), "laptop": web(900)}
LONG = "without studies of a very long name that no column of ordinary width could ever hold"


def rung(label, value, half=0.02, note="26 studies"):
    low, high = max(value - half, 0.0), min(value + half, 1.0)
    return Rung(
        label, note, f"{100 * value:.1f} ({100 * low:.1f}-{100 * high:.1f})", value, low, high
    )


def ladder(*rungs, base=None, invented=Invented.ALL):
    return LadderContent(
        "Perforation: if one study were out", "all studies",
        ("Without", "its count", "% (interval)"), base or rung("As it stands", 0.056), rungs,
        "How to read it.", STATUS, invented,
    )  # fmt: skip


CONTENTS = {
    "one": ladder(rung("Tansy 2014", 0.054)),
    "many": ladder(*(rung(f"Study {i}", 0.05 + i / 2000) for i in range(90))),
    "long": ladder(rung(LONG, 0.07), Rung("nothing read", "2 studies", "none")),
    "wide": ladder(rung("Early", 0.2, 0.19), rung("Later", 0.06), invented=Invented.NOTHING),
    "from the top": ladder(rung("A", 0.93), rung("B", 0.98), base=rung("As it stands", 0.94)),
}
CASES = [(case, sheet) for case in CONTENTS for sheet in FORMATS]


@pytest.mark.parametrize(("case", "sheet"), CASES)
def test_nothing_overlaps_or_leaves_the_page(case, sheet):
    fmt = FORMATS[sheet]
    layout = ladder_layout(CONTENTS[case], fmt)
    for page in layout.pages:
        assert fmt.height is None or page.height == fmt.height
        assert not overlapping_words(page)
        assert not off_the_page(page)
        assert min(text.size for text in texts(page)) >= {"A4": 7, "slide": 14}.get(sheet, 12)
        assert STATUS in " ".join(words_of(page, "status"))
        assert bool(page.of("watermark")) is (CONTENTS[case].invented is Invented.ALL)


@pytest.mark.parametrize(("case", "sheet"), CASES)
def test_pages_lose_no_rung_and_cut_no_word(case, sheet):
    content = CONTENTS[case]
    layout = ladder_layout(content, FORMATS[sheet])
    drawn = [group for page in layout.pages for group in page.of("study")]
    assert len(drawn) == len(content.all)
    for said, group in zip(content.all, drawn, strict=True):
        told = " ".join(text.words for text in group.texts)
        assert said.value in told
        assert set(said.label.split()) <= set(told.split())


@pytest.mark.parametrize("case", CONTENTS)
def test_marks_stand_at_their_values(case):
    content = CONTENTS[case]
    layout = ladder_layout(content, A4)
    size = layout.pages[0].of("study")[0].texts[0].size
    axis = Sheet.across(content, A4, size).axis
    groups = [group for page in layout.pages for group in page.of("study")]
    for said, group in zip(content.all, groups, strict=True):
        spots = [shape for shape in group.shapes if isinstance(shape, Circle)]
        if said is content.base:
            bar = next(shape for shape in group.shapes if isinstance(shape, Polygon))
            assert min(x for x, _ in bar.points) == pytest.approx(axis.x(said.low))
            assert max(x for x, _ in bar.points) == pytest.approx(axis.x(said.high))
        elif said.estimate is None:
            assert not spots
        else:
            (spot,) = spots
            assert spot.x == pytest.approx(axis.x(said.estimate))
            assert axis.left <= spot.x <= axis.right


def test_the_axis_holds_every_estimate_and_limits_that_are_not_far_out():
    scale = scale_for(CONTENTS["wide"])
    assert scale.start == 0
    assert 20 <= scale.end < 39
    assert scale_for(CONTENTS["from the top"]).end == 100
    nothing = replace(CONTENTS["one"], base=Rung("a", "b", "none"), rungs=())
    assert (scale_for(nothing).start, scale_for(nothing).end) == (0, 100)


def test_an_axis_that_does_not_start_at_0_is_told():
    high = ladder_layout(CONTENTS["from the top"], A4).pages[0]
    assert "axis starts at 90%, not at 0." in " ".join(words_of(high, "caption"))
    low = ladder_layout(CONTENTS["one"], A4).pages[0]
    assert "axis starts" not in " ".join(words_of(low, "caption"))


def test_those_who_cannot_see_it_are_told_every_answer():
    said = ladder_layout(CONTENTS["one"], A4).description
    assert said.startswith("INVENTED DATA")
    assert "Tansy 2014: 26 studies, 5.4 (3.4-7.4)." in said
    assert said.endswith(STATUS)
