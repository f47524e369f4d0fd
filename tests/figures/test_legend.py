"""The legend explains the marks of its page, and no others."""

from dataclasses import replace

import pytest

from evsyn.figures.forest import Band, Invented, Summary, forest_layout
from evsyn.figures.formats import A4, SLIDE, PageFormat, web
from evsyn.figures.palette import NEUTRAL, PAPER, UNIT, band_colours
from evsyn.figures.shapes import Box, Page, Polygon, Rect
from evsyn.pooling.answer import Show
from tests.figures.made_up import band, content, studies, study

HEADLINE, READ, RANGE = "headline", "read this: the row to quote", "95% range for an ordinary new"


def words(page: Page) -> list[str]:
    return [text.words for group in page.of("legend") for text in group.texts]


def drawn(*bands: Band, fmt: PageFormat = A4) -> Page:
    return forest_layout(content(*bands), fmt).pages[0]


def test_pooled_bars_are_explained_filled_and_open() -> None:
    page = drawn(band(studies(12)))
    said = words(page)
    assert HEADLINE in said
    assert READ in said
    bars = [s for s in page.of("legend")[0].shapes if isinstance(s, Polygon) and len(s.points) == 6]
    assert [bar.fill for bar in bars] == [band_colours(0).strong, PAPER]


def test_one_filled_bar_is_headline_and_read() -> None:
    said = words(drawn(band(studies(12), apart=False)))
    assert "headline, read this" in said
    assert HEADLINE not in said
    assert READ not in said


def test_unit_is_explained_by_its_triangle_where_it_stands() -> None:
    page = drawn(band(studies(6), unit=True))
    assert "this unit" in words(page)
    triangles = [s for s in page.of("legend")[0].shapes if isinstance(s, Polygon)]
    assert any(len(s.points) == 3 and s.fill == UNIT for s in triangles)
    assert "this unit" not in words(drawn(band(studies(6))))
    invented = replace(content(band(studies(6), unit=True)), invented=Invented.UNIT)
    assert "invented unit" in words(forest_layout(invented, A4).pages[0])


@pytest.mark.parametrize("show", [Show.NOTHING, Show.ONE, Show.TWO, Show.ALL_ZERO, Show.REFUSED])
def test_what_is_not_pooled_explains_no_bar(show: Show) -> None:
    lines = (study(2, 40, weight=None),)
    said = words(drawn(band(lines, show=show), band((study(1, 30, weight=None),), show=Show.ONE)))
    assert [text for text in said if "beyond" not in text] == ["one study"]


def test_two_studies_added_up_have_an_open_bar() -> None:
    lines = (study(1, 30, weight=None), study(2, 40, weight=None))
    both = Summary("if they share one true rate", 0.04, 0.01, 0.1)
    assert "added up" in words(drawn(replace(band(lines, show=Show.TWO), both=both)))


def test_summaries_alone_explain_no_study() -> None:
    page = drawn(band(studies(40)), fmt=SLIDE)
    assert not page.of("study")
    assert not any(text.startswith("one study") for text in words(page))


def test_each_page_explains_its_own_marks() -> None:
    first, second = band(studies(70), unit=True), band(studies(60), show=Show.FEW)
    pages = forest_layout(content(first, second), A4).pages
    assert len(pages) > 1
    for page in pages:
        said = words(page)
        assert (HEADLINE in said) == bool(page.of("summary"))
        assert ("this unit" in said) == bool(page.of("unit"))
        assert any(text.startswith("one study") for text in said) == bool(page.of("study"))


@pytest.mark.parametrize(("number", "colours"), [(1, band_colours(0)), (2, NEUTRAL)])
def test_colours_are_grey_unless_one_band_stands_alone(number, colours) -> None:
    page = drawn(*[band(studies(12))] * number)
    (swatch,) = (s for s in page.of("legend")[0].shapes if isinstance(s, Rect))
    assert (swatch.fill, swatch.stroke) == (colours.pale, colours.strong)


@pytest.mark.parametrize("fmt", [A4, SLIDE, web(360), web(900)])
def test_no_mark_of_the_legend_runs_into_its_words(fmt: PageFormat) -> None:
    page = drawn(band(studies(12), unit=True, wider=True), band(studies(4)), fmt=fmt)
    (group,) = page.of("legend")
    for shape in group.shapes:
        if isinstance(shape, Polygon):
            xs, ys = zip(*shape.points, strict=True)
            box = Box(min(xs), min(ys), max(xs), max(ys))
            assert not any(box.overlaps(text.box) for text in group.texts)
            assert box.left >= fmt.margin
