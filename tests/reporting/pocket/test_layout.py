"""One side of A4 at a type that can be read, whatever the review says."""

from dataclasses import replace

import pytest

from evsyn.extraction.load import CheckedUnit
from evsyn.figures.measure import text_width
from evsyn.figures.svg import svg_text
from evsyn.reporting.pocket import pocket_layout, pocket_text
from evsyn.reporting.pocket.card import pocket_card
from evsyn.reporting.report.content import report_content
from evsyn.terms import Audience
from tests.figures.geometry import off_the_page, overlapping_words, texts, words_of
from tests.reporting.pocket.reviews import content_of, first_only, unit_content

A4 = (595.28, 841.89)
CARDS = {
    "demo": lambda: content_of("demo"),
    "published": lambda: content_of("published"),
    "trials": lambda: content_of("published-trials"),
    "inside": lambda: unit_content(Audience.INSIDE),
    "outside": lambda: unit_content(Audience.OUTSIDE),
}
NASTY = (
    "<script>alert('x')</script>&amp;\"]]>",
    "\u202eمستشفى\u202c 😀 $x^2$ \\frac{1}{2}",
    "=1+1\n\n# heading [link](x)",
    "Llanfairpwllgwyngyllgogerychwyrndrobwllllantysiliogogogochuchafonisaf-x",
)


def held_on_one_side(layout):
    (page,) = layout.pages
    assert (page.width, page.height) == pytest.approx(A4)
    words = texts(page)
    assert min(text.size for text in words) >= 8.5
    assert not off_the_page(page)
    assert not overlapping_words(page)
    for text in words:
        assert text.width == pytest.approx(text_width(text.words, text.size, bold=text.bold))
    return page


@pytest.mark.parametrize("name", CARDS)
def test_each_shipped_review_fits_one_side(name):
    held_on_one_side(pocket_layout(CARDS[name]()))


@pytest.mark.parametrize("name", ["demo", "published", "trials"])
def test_without_a_unit_nothing_is_left_off(name):
    (page,) = pocket_layout(CARDS[name]()).pages
    assert "Left off" not in " ".join(words_of(page, "caption"))


@pytest.mark.parametrize("name", CARDS)
def test_status_line_and_marks_stand_on_it(name):
    content = CARDS[name]()
    (page,) = pocket_layout(content).pages
    assert " ".join(words_of(page, "status")) == content.status
    assert bool(page.of("invented")) is bool(page.of("watermark")) is content.invented
    mark = " ".join(words_of(page, "audience"))
    assert ("INSIDE THE UNIT" in mark) is (name == "inside")
    assert ("FOR USE OUTSIDE" in mark) is (name == "outside")


def test_what_is_left_off_is_told_and_stands_in_the_text():
    content = unit_content(Audience.INSIDE)
    (page,) = pocket_layout(content).pages
    card = " ".join(text.words for text in texts(page))
    missing = [
        sentence
        for prompt in pocket_card(content).prompts
        for sentence in prompt.say
        if sentence not in card
    ]
    told = " ".join(words_of(page, "caption"))
    assert told.startswith(f"Left off for want of room: {len(missing)} sentences; ")
    whole = " ".join(pocket_text(content).split())
    for sentence in missing:
        assert sentence in whole
    assert "true rates up to 19.9% are not excluded" in card


@pytest.mark.parametrize("number", [5, 60, 200])
def test_many_studies_with_names_of_seventy_letters_fit_one_side(number, tiny):
    review = first_only(tiny.read())
    name = "Marrowdale Hollowmere and Tarnbeck Collaborative Group of Stent Nurses"
    assert len(name) == 70
    some = [
        study.model_copy(
            update={
                "study": f"{study.study}-{i}",
                "citation": study.citation.model_copy(update={"authors": f"{name} {i}"}),
            }
        )
        for i in range(number // len(review.studies) + 1)
        for study in review.studies
    ]
    content = report_content(replace(review, studies=tuple(some[:number])))
    assert content.outcomes[0].overall.pooled.table.k == number
    page = held_on_one_side(pocket_layout(content))
    assert f"Of {number} series" in " ".join(words_of(page, "sentence"))


@pytest.mark.parametrize("nasty", NASTY)
def test_hostile_names_stay_words_and_on_the_page(nasty, tiny):
    review = tiny.read()
    plan = review.plan
    outcome = plan.outcomes["perforation"].model_copy(
        update=dict.fromkeys(("label", "event", "events"), nasty)
    )
    intent = plan.strata["intent"]
    levels = dict.fromkeys(intent.levels, nasty)
    named = intent.model_copy(update={"label": nasty, "levels": levels})
    facts = plan.characteristics.arm
    arm = {name: fact.model_copy(update={"label": nasty}) for name, fact in facts.items()}
    plan = plan.model_copy(
        update={
            "title": nasty,
            "search_note": nasty,
            "outcomes": {"perforation": outcome},
            "strata": plan.strata | {"intent": named},
            "characteristics": plan.characteristics.model_copy(update={"arm": arm}),
        }
    )
    authors = nasty.replace(",", "")
    authors = nasty.replace(",", "")
    studies = tuple(
        study.model_copy(
            update={"citation": study.citation.model_copy(update={"authors": authors})}
        )
        for study in review.studies
    )
    checked = tiny.read_unit()
    unit = checked.unit.model_copy(update={"label": nasty})
    content = report_content(
        replace(review, plan=plan, studies=tuple(studies)),
        CheckedUnit(unit, checked.findings),
        Audience.INSIDE,
    )
    layout = pocket_layout(content)
    page = held_on_one_side(layout)
    assert all(text.words.isprintable() for text in texts(page))
    assert "<script" not in svg_text(layout, 0)
    assert all(line.isprintable() for line in pocket_text(content).splitlines())


def test_very_long_words_are_left_off_before_the_page_overflows(tiny):
    review = first_only(tiny.read())
    stratum = review.plan.strata["intent"]
    many = {f"s{i}": stratum.model_copy(update={"label": f"Stratum {i} " * 20}) for i in range(12)}
    long = replace(review, plan=review.plan.model_copy(update={"strata": many}))
    page = held_on_one_side(pocket_layout(report_content(long)))
    assert "questions" in " ".join(words_of(page, "caption"))


def test_a_title_that_leaves_no_room_is_refused(tiny):
    review = first_only(tiny.read())
    full = replace(review, plan=review.plan.model_copy(update={"title": "long words " * 900}))
    with pytest.raises(ValueError, match="has no room for a question") as refused:
        pocket_layout(report_content(full))
    line = review.plan.source("title").line
    assert f"'title' in review.yaml, line {line}: 9,900 letters. Shorten" in str(refused.value)
