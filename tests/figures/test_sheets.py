"""Invented figures, outcomes without a study, and slides of several pools."""

import math
from dataclasses import replace

import pytest

from evsyn.figures.forest import ForestContent, Invented, forest_layout
from evsyn.figures.formats import A4, SLIDE, PageFormat, web
from evsyn.figures.shapes import Box
from evsyn.pooling.answer import Show
from tests.figures.made_up import SENTENCE, band, content, studies

FORMATS = {"A4": A4, "slide": SLIDE, "phone": web(360), "laptop": web(900), "tablet": web(720)}


@pytest.mark.parametrize("fmt", FORMATS.values(), ids=FORMATS)
@pytest.mark.parametrize("number", [2, 5, 20, 60])
def test_watermark_lies_over_every_row_and_reads_whole(number: int, fmt: PageFormat) -> None:
    for page in forest_layout(content(band(studies(number), unit=True)), fmt).pages:
        mark = page.groups[-1]
        assert mark.role == "watermark"
        (shade,) = (group.shapes[0].box for group in page.of("wash"))
        for text in mark.texts:
            assert text.opacity < 0.25
            turn = math.radians(text.rotation)
            across = text.width * math.cos(turn) + 0.73 * text.size * math.sin(turn)
            down = text.width * math.sin(turn) + 0.73 * text.size * math.cos(turn)
            assert across <= 0.85 * page.width
            assert down <= shade.bottom - shade.top
            # A word that runs along the sheet can be seen at a glance.
            assert text.width >= 0.2 * page.width


def test_an_invented_unit_among_published_studies_marks_its_row_and_nothing_else() -> None:
    said = content(band(studies(6), unit=True), invented=Invented.UNIT)
    for fmt in FORMATS.values():
        layout = forest_layout(said, fmt)
        page = layout.pages[0]
        strip = [text.words for group in page.of("invented") for text in group.texts]
        assert " ".join(strip) == "INVENTED UNIT: the studies are published"
        assert not page.of("watermark")
        assert page.of("unit")[0].texts[0].words.startswith("invented unit: Hollowm")
        assert layout.description.startswith("INVENTED UNIT")


def test_invented_studies_around_a_real_unit_are_no_yardstick() -> None:
    said = content(band(studies(6), unit=True), invented=Invented.STUDIES)
    page = forest_layout(said, A4).pages[0]
    assert page.of("invented")[0].texts[0].words.startswith("INVENTED STUDIES")
    assert page.of("watermark")
    assert page.of("unit")[0].texts[0].words == "this unit: Hollowmere"


@pytest.mark.parametrize("fmt", FORMATS.values(), ids=FORMATS)
def test_an_outcome_without_a_study_is_a_sentence_without_an_axis(fmt: PageFormat) -> None:
    none = band((), show=Show.NOTHING, sentence="No study here reports it.")
    (page,) = forest_layout(content(none, none), fmt).pages
    assert not page.of("axis")
    assert not page.of("heading")
    words = " ".join(t.words for group in page.of("sentence") for t in group.texts)
    assert words == "No study of this review reports it in a way that the plan accepts."
    assert page.of("invented")
    assert page.of("status")
    if fmt.is_slide:
        assert page.height == fmt.height
    else:
        assert page.height < 250
    for text in (text for group in page.groups for text in group.texts):
        assert text.box.inside(Box(0, 0, page.width, page.height))


def briefly(show: Show = Show.SOME) -> ForestContent:
    """Four pools with a short sentence, two of them with the unit's row."""
    titles = ("Palliation", "Bridge to surgery", "Mixed or not stated", "All studies")
    range_words = "95% range for an ordinary new setting: 12.4% to 16.4%."
    parts = [
        replace(
            band(studies(9), title=title, show=show, unit=i < 2),
            short_sentence=range_words,
            sentence=SENTENCE,
        )
        for i, title in enumerate(titles)
    ]
    return replace(content(*parts), short_caption="Exact rows. " * 12)


def test_a_slide_keeps_four_pools_and_the_unit_together() -> None:
    layout = forest_layout(briefly(), SLIDE)
    (page,) = layout.pages
    assert len(page.of("summary")) == 4
    assert len(page.of("unit")) == 2
    assert SENTENCE in layout.description


def test_a_short_sentence_stands_on_the_line_of_its_title() -> None:
    page = forest_layout(briefly(), SLIDE).pages[0]
    for group in page.of("band"):
        name, _, beside = group.texts
        assert beside.words.startswith("95% range")
        assert beside.y == name.y
    assert not page.of("sentence")


def test_a_slide_that_turns_fills_its_first_page() -> None:
    said = briefly()
    layout = forest_layout(replace(said, bands=said.bands + said.bands[2:]), SLIDE)
    assert [len(page.of("summary")) for page in layout.pages] == [5, 1]
