"""Forests of few and of many studies on slides, and names as long as they come."""

from dataclasses import replace
from io import BytesIO

import pytest

from tests.figures import made_up
from tests.reporting.slides import opened as look
from tests.reporting.slides.made_up_talks import forest_talk, text_talk

LONG = "The Marrowdale and Hollowmere Collaborative Group for Obstructed Bowel"


@pytest.mark.parametrize("long", [False, True])
@pytest.mark.parametrize("number", [5, 60, 200])
def test_every_study_is_drawn_at_a_readable_size(number, long):
    rows = made_up.studies(number)
    if long:
        rows = tuple(replace(row, label=f"{LONG} {i}") for i, row in enumerate(rows))
    title = LONG if long else "Palliation"
    content = made_up.content(
        made_up.band(rows[: number // 2], title=title), made_up.band(rows[number // 2 :])
    )
    made = forest_talk(content)
    assert look.faults(made) == []
    summaries, *every = list(look.opened(made).slides)
    assert look.study_rows(summaries) == 0
    assert sum(look.study_rows(slide) for slide in every) == number


@pytest.mark.parametrize("number", [30, 60, 200])
def test_backup_pages_are_filled_alike(number):
    """No page holds less than half of the fullest, where bands can be parted at any row."""
    rows = made_up.studies(number)
    _, *every = look.opened(forest_talk(made_up.content(made_up.band(rows)))).slides
    held = [look.study_rows(slide) for slide in every]
    assert max(held[:-1]) - min(held[:-1]) <= 1
    # The last page holds the sums and their sentence as well.
    assert held[-1] >= max(held) - 6


def test_what_leaves_no_room_for_the_last_band_stands_in_the_notes_alone():
    bands = [
        replace(made_up.band(made_up.studies(6), title=f"Level {i}"), short_sentence="A range.")
        for i in range(7)
    ]
    long = made_up.content(*bands, short_caption="A long caption. " * 30)
    for shape in ("headline", LONG, "A long caption."):
        summaries, *_ = list(look.opened(forest_talk(long)).slides)
        assert shape not in " ".join(words for words, *_ in look.figure_words(summaries))
    assert "(1 of" not in look.title(summaries)


def test_references_of_two_hundred_studies_are_measured():
    said = [f"{i}. {LONG}. {LONG}. Ember Isles Journal 2001; 1:{i}." for i in range(200)]
    made = text_talk(said)
    assert look.faults(made) == []
    lines = [len(slide.shapes[-2].text_frame.paragraphs) for slide in look.opened(made).slides]
    assert max(lines) <= 20


def test_a_summary_stays_on_one_slide_by_leaving_the_headline_to_the_notes():
    bands = [
        replace(made_up.band(made_up.studies(6), title=f"Level {i}"), short_sentence="A range.")
        for i in range(7)
    ]
    summaries, *_ = list(look.opened(forest_talk(made_up.content(*bands))).slides)
    said = [words for words, _, _, role in look.figure_words(summaries) if role == "summary"]
    assert said.count("read this") == 7
    assert "headline" not in said


def test_names_of_seventy_letters_are_cut_and_stay_apart():
    assert len(LONG) == 70
    rows = [replace(row, label=f"{LONG} {i}") for i, row in enumerate(made_up.studies(24))]
    made = forest_talk(made_up.content(made_up.band(tuple(rows), title=LONG)))
    assert look.faults(made) == []
    words = [words for s in look.opened(made).slides for words, *_ in look.figure_words(s)]
    assert any(said.startswith("The Marrow") and said.endswith("…") for said in words)


def test_a_title_too_long_for_its_place_is_made_smaller_and_at_last_cut():
    short, long, endless = "Perforation", f"{LONG} {LONG}", " ".join([LONG] * 9)
    shown = [look.opened(text_talk(["Said."], title=title)).slides[0] for title in (short, long)]
    assert [look.title(slide) for slide in shown] == [short, long]
    sizes = [slide.element.xpath(".//p:sp[1]//a:rPr/@sz") for slide in shown]
    assert sizes[0] == []
    assert 1400 <= int(sizes[1][0]) < 2800
    cut = look.title(look.opened(text_talk(["Said."], title=endless)).slides[0])
    assert cut.endswith("…")
    assert endless.startswith(cut.removesuffix("…"))


def test_paragraphs_beyond_a_slide_go_on_over_the_next():
    said = [f"{LONG} {i}." for i in range(70)]
    made = text_talk(said)
    assert look.faults(made) == []
    slides = list(look.opened(made).slides)
    assert look.title(slides[0]) == f"Words (1 of {len(slides)})"
    shown = [p.text for s in slides for p in s.shapes[1].text_frame.paragraphs]
    assert shown == said


def test_a_fault_of_look_would_be_seen():
    content = made_up.content(made_up.band(made_up.studies(6)))
    slides = look.opened(forest_talk(content))
    for shape in slides.slides[1].element.xpath(".//p:sp[p:txBody]//a:off"):
        shape.set("y", "100000")
    held = BytesIO()
    slides.save(held)
    assert any("over" in said for said in look.faults(held.getvalue()))
    assert look.faults(forest_talk(content), least=15)
