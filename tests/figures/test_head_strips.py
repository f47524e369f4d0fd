"""The strips at a page's head share a line where they fit, and are told apart in grey."""

import pytest

from evsyn.figures.formats import A4, SLIDE, web
from evsyn.figures.head_strips import head_strips
from evsyn.figures.palette import (
    AUDIENCE_GROUND,
    AUDIENCE_INK,
    INVENTED_GROUND,
    INVENTED_INK,
)
from evsyn.figures.paper import Paper
from evsyn.figures.shapes import Page, Rect
from evsyn.wording.audience import INSIDE_MARK, INSIDE_SHORT, OUTSIDE_MARK
from evsyn.wording.page import PageWords
from tests.figures.geometry import off_the_page, overlapping_words, words_of

BANNER = PageWords().invented


def luminance(colour: str) -> float:
    """Return relative luminance (W3C, WCAG 2.1, definition of relative luminance)."""
    parts = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize("fmt", [A4, SLIDE, web(320), web(900)], ids=["A4", "slide", "320", "900"])
@pytest.mark.parametrize("banner", ["", BANNER])
@pytest.mark.parametrize("mark", ["", INSIDE_SHORT, INSIDE_MARK, OUTSIDE_MARK])
def test_strips_cover_the_width_and_hold_their_words(fmt, banner, mark) -> None:
    for size in fmt.sizes:
        groups, bottom = head_strips(Paper(fmt, size), banner, mark)
        page = Page(fmt.width, bottom + size, tuple(groups))
        assert not overlapping_words(page)
        assert not off_the_page(page)
        assert " ".join(words_of(page, "invented")) == banner
        assert " ".join(words_of(page, "audience")) == mark
        grounds = [s.box for g in groups for s in g.shapes if isinstance(s, Rect)]
        covered = sum((box.right - box.left) * (box.bottom - box.top) for box in grounds)
        assert covered == pytest.approx(fmt.width * bottom)
        for group, ground in zip(groups, grounds, strict=True):
            assert all(text.bold and text.box.inside(ground) for text in group.texts)


def test_two_short_strips_share_a_line_and_long_ones_do_not() -> None:
    paper = Paper(SLIDE, 18)
    one, bottom = head_strips(paper, BANNER, INSIDE_SHORT)
    assert len(one) == 2
    assert bottom == head_strips(paper, BANNER, "")[1]
    assert head_strips(paper, BANNER, OUTSIDE_MARK)[1] > 2 * bottom


def test_strips_can_be_read_and_told_apart_in_grey() -> None:
    # 4.5 for words and 3 for what must be seen apart: W3C, WCAG 2.1, 1.4.3 and 1.4.11.
    assert contrast(AUDIENCE_GROUND, AUDIENCE_INK) > 4.5
    assert contrast(INVENTED_GROUND, INVENTED_INK) > 4.5
    assert contrast(AUDIENCE_GROUND, INVENTED_GROUND) > 3
