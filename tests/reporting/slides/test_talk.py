"""The talk of the demo, opened again: what it says, in what order, and how it looks."""

import posixpath
import re
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner

from evsyn import pool_binomial_normal
from evsyn.cli import cli
from evsyn.extraction.load import read_review
from evsyn.figures.forest import forest_layout
from evsyn.figures.formats import SLIDE
from evsyn.figures.svg import svg_text
from evsyn.reporting.forest import forest_of
from evsyn.reporting.report.content import report_content
from evsyn.reporting.slides import slides_bytes
from evsyn.wording.numbers import percent
from tests.reporting.slides import opened as look

DEMO = Path(__file__).parents[3] / "studies" / "demo"
OUTCOMES = ("migration", "reobstruction")


def some_of_the_demo():
    """Return the demo with two of its outcomes, so that the tests are quick."""
    read = read_review(DEMO)
    plan = read.plan
    kept = {name: plan.outcomes[name] for name in OUTCOMES}
    audit = plan.audit.model_copy(update={"primary": None, "targets": {}})
    cut = plan.model_copy(update={"outcomes": kept, "audit": audit})
    return replace(read, plan=cut)


CONTENT = report_content(some_of_the_demo())


@pytest.fixture(scope="module")
def made() -> bytes:
    return slides_bytes(CONTENT)


@pytest.fixture(scope="module")
def slides(made):
    return list(look.opened(made).slides)


def test_order_of_the_talk(slides):
    titles = [look.title(slide) for slide in slides]
    starts = [
        CONTENT.review.plan.title, "Migration: typically ",
        "Reobstruction: counts of 4 studies", "What these studies cannot tell",
        "Searched: 2 sources, last on 2026-02-03", "To take home",
        "Backup slides", "Migration, every study, by device generation",
        "References: 30 studies (1 of ",
    ]  # fmt: skip
    places = [
        next(i for i, title in enumerate(titles) if title.startswith(start)) for start in starts
    ]
    assert places == sorted(places)
    assert len(set(places)) == len(starts)


def test_no_type_is_small_and_nothing_overlaps_or_overflows(made):
    assert look.faults(made) == []


def test_the_title_comes_first_and_no_placeholder_is_left_empty(slides):
    for slide in slides:
        assert slide.shapes[0].is_placeholder
        assert look.title(slide).strip()
        assert all(shape.text_frame.text.strip() for shape in slide.placeholders)


def test_slides_are_numbered_in_the_place_of_the_layout(slides):
    for number, slide in enumerate(slides, start=1):
        fields = slide.element.xpath(".//p:sp[.//p:ph[@type='sldNum']]//a:fld[@type='slidenum']")
        assert [look.words(one) for one in fields] == ([] if number == 1 else [str(number)])


def test_the_first_slide_asks_the_question_on_a_layout_of_its_own(slides):
    first = slides[0]
    assert first.slide_layout.name == "Title Slide"
    assert {slide.slide_layout.name for slide in slides[1:]} == {"Title Only"}
    assert first.placeholders[1].text_frame.text.startswith(CONTENT.review.plan.question)


def test_slides_are_listed_by_the_parts_of_the_talk(made, slides):
    (listed,) = [
        root
        for root in look.xml_parts(made)["ppt/presentation.xml"].iter()
        if root.tag.endswith("}sectionLst")
    ]
    told = {part.get("name"): [int(one.get("id")) for one in part[0]] for part in listed}
    assert [number for part in told.values() for number in part] == [s.slide_id for s in slides]
    assert list(told) == [
        "Start", "Migration", "Reobstruction", "The evidence", "To take home", "Backup",
        "Backup: migration", "Backup: reobstruction", "References",
    ]  # fmt: skip
    assert len(told["Start"]) == 1
    migration = [s for s in slides if s.slide_id in told["Migration"]]
    assert all(look.title(slide).startswith("Migration") for slide in migration)


def test_every_slide_carries_the_status_and_the_mark_of_what_is_invented(slides):
    for slide in slides:
        foot = slide.shapes[-1]
        assert foot.text_frame.text.startswith(CONTENT.status)
        assert "INVENTED DATA" in foot.text_frame.text
        assert str(foot.fill.fore_color.rgb) == "FFE08A"


def test_figures_are_native_shapes_and_say_in_words_what_they_show(slides, made):
    groups = [group for slide in slides for group in slide.element.xpath(".//p:grpSp")]
    assert len(groups) > 5
    for group in groups:
        (said,) = group.xpath("./p:nvGrpSpPr/p:cNvPr/@descr")
        assert CONTENT.status in said
        assert re.search(r"\d+ of \d|\d stud", said.removesuffix(CONTENT.status))
    assert not any(name.startswith("ppt/media") for name in look.parts(made))


def test_every_word_is_tagged_as_british_english(made):
    for name, root in look.xml_parts(made).items():
        if name.startswith(("ppt/slides/slide", "ppt/notesSlides/notesSlide")):
            runs = root.iter("{http://schemas.openxmlformats.org/drawingml/2006/main}rPr")
            assert {run.get("lang") for run in runs} == {"en-GB"}


def test_notes_say_first_what_is_spoken_then_what_stands_behind_it(slides):
    (answer,) = [s for s in slides if look.title(s).startswith("Migration: typically")]
    item = CONTENT.outcomes[0]
    first, parted, behind = look.notes(answer).partition("For questions:\n")
    assert parted
    assert len(first.splitlines()) <= 10
    assert first.startswith(
        "Migration: about 7 in 100. A typical setting sees 6.9% (4.1% to 11.4%)"
    )
    assert "model" not in first
    assert 'Do not say: "The rate is 6.9%"' in first
    assert item.overall.sentence in behind
    assert "each study was left out, one at a time" in behind


def test_every_count_of_an_outcome_and_its_place_stands_once_in_the_notes(slides):
    told = [look.notes(slide) for slide in slides]
    for cell in CONTENT.outcomes[0].overall.pooled.table.cells:
        line = f"{cell.label}: {cell.events:,} of {cell.total:,}; {cell.sources[0]}"
        (held,) = [notes for notes in told if line in notes]
        assert cell.sources[0].place in held
        title = look.title(slides[told.index(held)])
        assert title.startswith("Migration, every study, by device generation")


def test_a_stratum_that_cannot_be_compared_is_a_sentence_and_no_slide(slides):
    """Two studies of a bridge to surgery: three are the least."""
    (answer,) = [s for s in slides if look.title(s).startswith("Migration: typically")]
    assert look.title(answer).endswith("by device generation: cannot be compared")
    shown = " ".join(words for words, _, _, _ in look.figure_words(answer))
    assert "Intent cannot be compared from these papers for migration" in shown
    assert not [s for s in slides if look.title(s).startswith("Migration by ")]


def test_all_studies_have_one_colour_and_no_level_has_it(slides):
    whole, levels = set(), set()
    for slide in slides:
        for element in slide.element.xpath(".//p:grpSp//p:sp[p:txBody]"):
            if element.xpath("./p:nvSpPr/p:cNvPr/@name")[0].startswith("band"):
                colours = element.xpath(".//a:rPr//a:schemeClr[contains(@val, 'accent')]/@val")
                (whole if look.words(element) == "All studies" else levels).update(colours)
    assert len(whole) == 1
    assert len(levels) > 2
    assert not whole & levels


def test_the_talk_draws_the_row_to_quote_alone_and_the_backup_the_headline_too(slides):
    drawn = {True: set(), False: set()}
    for slide in slides:
        is_backup = "every study" in look.title(slide)
        drawn[is_backup].update(words for words, _, _, _ in look.figure_words(slide))
    assert {"headline", "read this"} <= drawn[True]
    assert "read this" in drawn[False]
    assert not {"headline", "exact model"} & drawn[False]


def test_every_pooled_outcome_has_its_own_table_of_disputed_counts(slides):
    """Each value against the pool of the changed table, by the plain function of the package."""
    (answer,) = [s for s in slides if look.title(s).startswith("Migration: typically")]
    pooled = CONTENT.outcomes[0].overall.pooled
    lines = look.notes(answer).split("\n")
    for place, cell in enumerate(pooled.table.cells):
        start = f"{cell.label}, {cell.events:,} of {cell.total:,}: "
        (line,) = [one for one in lines if one.startswith(start) and "; left out" in one]
        changes, _, left_out = line.removeprefix(start).partition("; left out ")
        told = dict(one.split(" ") for one in changes.split(", "))
        steps = [by for by in (-3, -2, -1, 1, 2, 3) if 0 <= cell.events + by <= cell.total]
        assert [int(by) for by in told] == steps
        assert left_out.endswith("%")
        if place == 0:
            events = [c.events for c in pooled.table.cells]
            totals = [c.total for c in pooled.table.cells]
            for by in steps:
                moved = [events[0] + by, *events[1:]]
                assert told[f"{by:+d}"] == percent(read(moved, totals))
            assert left_out == percent(read(events[1:], totals[1:]))
    refused = [s for s in slides if look.title(s).startswith("Reobstruction: counts")]
    assert "left out" not in look.notes(refused[0]).replace("Left out", "")


def read(events, totals) -> float:
    """Return the row to read of a pool, by the exact model."""
    return pool_binomial_normal(events, totals).estimate


def test_links_lead_from_one_list_to_the_backup_and_back(slides):
    (index,) = [s for s in slides if look.title(s).startswith("Backup slides")]
    listed = look.links(index)
    named = [words for words, _ in listed]
    assert named == ["Device generation", "Intent"] * 2 + ["References"]
    first = [look.title(target) for _, target in listed]
    assert first[0].startswith("Migration, every study, by device generation")
    assert first[3].startswith("Reobstruction, every study, by intent")
    assert first[4].startswith("References: 30 studies (1 of ")
    place = slides.index(index)
    for slide in slides[:place]:
        assert look.links(slide) == []
    for slide in slides[place + 1 :]:
        ((words, target),) = look.links(slide)
        assert words == "Back to the list."
        assert target.slide_id == index.slide_id


def test_the_talk_ends_with_three_sentences_and_one_not_to_say(slides):
    (last,) = [slide for slide in slides if look.title(slide) == "To take home"]
    (body,) = [shape for shape in last.shapes if shape.name == "words"]
    said = [one.text for one in body.text_frame.paragraphs]
    assert len(said) == 4
    assert said[0].startswith("Migration: about 7 in 100.")
    assert said[1].startswith("Device generation cannot be compared from these papers")
    assert said[2].startswith("Read from abstract or second hand, not in full: 5 of 30 studies.")
    assert said[3].startswith('Do not say: "The rate is 6.9%"')
    assert look.title(slides[slides.index(last) + 1]).startswith("Backup slides")


def test_every_relationship_named_in_a_part_is_there_and_leads_to_a_part(made):
    held = look.xml_parts(made)
    names = set(look.parts(made))
    for name, root in held.items():
        if name.endswith(".rels"):
            continue
        folder, _, file = name.rpartition("/")
        related = held.get(f"{folder}/_rels/{file}.rels")
        known = {} if related is None else {one.get("Id"): one for one in related}
        named = root.xpath("//@r:id | //@r:embed", namespaces={"r": look.RELATIONSHIPS})
        assert set(named) <= set(known), name
        for one in known.values():
            if one.get("TargetMode") != "External":
                place = posixpath.normpath(posixpath.join("/", folder, one.get("Target")))
                assert place.lstrip("/") in names, name


def test_every_number_of_a_shape_is_its_own(slides):
    for slide in slides:
        numbers = slide.element.xpath(".//p:cNvPr/@id")
        assert len(set(numbers)) == len(numbers)


def test_where_nothing_is_pooled_the_studies_are_the_answer(slides):
    (answer,) = [s for s in slides if look.title(s).startswith("Reobstruction: counts")]
    assert look.study_rows(answer) == 4


def test_every_study_stands_in_the_backup(slides):
    said = " ".join(
        words
        for slide in slides
        if look.title(slide).startswith("Migration, every study, by intent")
        for words, _, _, _ in look.figure_words(slide)
    )
    for answered in CONTENT.outcomes[0].strata[1].answers:
        for cell in answered.pooled.table.cells:
            assert cell.label in said
            assert f"{cell.events:,} of {cell.total:,}" in said


def test_digits_are_those_of_the_terminal(slides):
    result = CliRunner().invoke(cli, ["pool", str(DEMO), "migration"])
    assert result.exit_code == 0
    printed = " ".join(result.output.split())
    (answer,) = [s for s in slides if look.title(s).startswith("Migration: typically")]
    (rate,) = look.rates(look.title(answer))
    assert f"a typical setting sees {rate}" in printed
    drawn = forest_layout(forest_of(CONTENT.review, "migration", "device_generation"), SLIDE)
    figure = look.rates(svg_text(drawn))
    shown = look.rates(" ".join(words for words, _, _, _ in look.figure_words(answer)))
    assert rate in shown
    assert shown <= figure


def test_the_same_bytes_without_day_person_or_machine(made):
    assert slides_bytes(CONTENT) == made
    held = look.parts(made)
    assert b"creator" not in held["docProps/core.xml"]
    assert b"modified" not in held["docProps/core.xml"]
    assert b"Company" not in held["docProps/app.xml"]
    assert not any("thumbnail" in name or "printer" in name for name in held)
    assert str(DEMO).encode() not in b"".join(held.values())
