"""A talk on a hospital's own template, and templates that cannot hold one."""

import re
from dataclasses import replace
from io import BytesIO
from zipfile import ZipFile

import pytest
from pptx import Presentation
from pptx.enum.shapes import PP_PLACEHOLDER
from pptx.opc.constants import RELATIONSHIP_TYPE
from pptx.util import Pt

from evsyn.reporting.slides import TemplateError, slides_bytes
from evsyn.reporting.slides.colours import contrast
from evsyn.reporting.slides.template import template_for
from tests.figures import made_up
from tests.reporting.slides import opened as look
from tests.reporting.slides.made_up_talks import FOOT, forest_talk
from tests.reporting.slides.test_talk import CONTENT as REAL

#: A whole talk of few slides.
TALK = replace(REAL, outcomes=REAL.outcomes[:1])
CONTENT = made_up.content(made_up.band(made_up.studies(12)), made_up.band(made_up.studies(9)))


def saved(made) -> bytes:
    held = BytesIO()
    made.save(held)
    return held.getvalue()


def hospital(*, width: float = 960, height: float = 540, accent: str = "5B2D8E"):
    """Return a template as a hospital might have it: old slides, other colours, a footer."""
    made = Presentation()
    made.slide_width, made.slide_height = Pt(width), Pt(height)
    for shape in made.slide_master.placeholders:
        # The library's own template is made for slides of 720 by 540 points.
        shape.left, shape.width = int(shape.left * width / 720), int(shape.width * width / 720)
        shape.top, shape.height = int(shape.top * height / 540), int(shape.height * height / 540)
    part = made.slide_master.part.part_related_by(RELATIONSHIP_TYPE.THEME)
    text = part.blob.decode("utf-8")
    put = rf'<a:accent1><a:srgbClr val="{accent}"/></a:accent1>'
    part._blob = re.sub(r"<a:accent1>.*?</a:accent1>", put, text, flags=re.S).encode("utf-8")
    made.slides.add_slide(made.slide_layouts[0]).shapes.title.text = "An old slide"
    made.core_properties.author = "Somebody"
    return made


@pytest.mark.parametrize(("width", "height"), [(960, 540), (720, 405), (720, 540), (1280, 720)])
def test_a_talk_takes_the_layout_and_the_size_of_its_template(width, height):
    made = forest_talk(CONTENT, template=saved(hospital(width=width, height=height)))
    # Type is at least 14 points where a slide is 540 points high, and as large against others.
    assert look.faults(made, least=14 * height / 540 - 0.01) == []
    shown = look.opened(made)
    assert (shown.slide_width, shown.slide_height) == (Pt(width), Pt(height))
    assert {slide.slide_layout.name for slide in shown.slides} == {"Title Only"}
    assert "An old slide" not in [look.title(slide) for slide in shown.slides]
    assert b"Somebody" not in b"".join(look.parts(made).values())


def test_the_number_stands_in_the_place_of_the_template():
    template = hospital()
    (place,) = [
        shape
        for shape in template.slide_layouts.get_by_name("Title Only").placeholders
        if shape.placeholder_format.type == PP_PLACEHOLDER.SLIDE_NUMBER
    ]
    for slide in look.opened(forest_talk(CONTENT, template=saved(template))).slides:
        (shown,) = slide.element.xpath(".//p:sp[.//a:fld[@type='slidenum']]")
        (ph,) = shown.xpath(".//p:ph")
        assert ph.get("idx") == str(place.placeholder_format.idx)
        assert not shown.xpath("./p:spPr/a:xfrm")


def test_a_template_without_a_number_has_none():
    template = hospital()
    layout = template.slide_layouts.get_by_name("Title Only")
    for shape in list(layout.placeholders):
        if shape.placeholder_format.type == PP_PLACEHOLDER.SLIDE_NUMBER:
            shape.element.getparent().remove(shape.element)
    for slide in look.opened(forest_talk(CONTENT, template=saved(template))).slides:
        assert not slide.element.xpath(".//a:fld")


def cover(template):
    """Return the first slide of a talk on a template."""
    return look.opened(slides_bytes(TALK, saved(template))).slides[0]


def test_a_talk_begins_on_the_title_layout_of_the_template_in_its_own_colours():
    first = cover(hospital())
    assert first.slide_layout.name == "Title Slide"
    title, words = first.placeholders
    assert title.text_frame.text == TALK.review.plan.title
    assert words.text_frame.text.startswith(TALK.review.plan.question)
    assert not words._element.xpath(".//a:solidFill")


@pytest.mark.parametrize(("width", "height"), [(720, 540), (960, 540)])
def test_a_whole_talk_fits_narrow_templates_too(width, height):
    made = slides_bytes(REAL, saved(hospital(width=width, height=height)))
    assert look.faults(made) == []


def test_a_title_layout_without_room_is_left_alone():
    template = hospital()
    for shape in template.slide_layouts.get_by_name("Title Slide").placeholders:
        shape.left, shape.top, shape.width, shape.height = (Pt(9), Pt(9), Pt(200), Pt(200))
    assert cover(template).slide_layout.name == "Title Only"


def test_figures_take_the_accents_of_the_template_unless_they_are_too_faint():
    def colours(accent: str) -> set[str]:
        made = forest_talk(CONTENT, template=saved(hospital(accent=accent)))
        slide = look.opened(made).slides[1]
        path = ".//p:sp[p:nvSpPr/p:cNvPr[starts-with(@name,'study')]]/p:spPr/a:solidFill/*/@val"
        return set(slide.element.xpath(path))

    assert "accent1" in colours("5B2D8E")
    assert "accent1" not in colours("FFF2A8")


def test_contrast_is_that_of_the_standard():
    # WCAG 2.1: black on white is 21:1; #767676 on white is the lightest grey that gives 4.5:1
    # (W3C, Understanding Success Criterion 1.4.3; from memory).
    assert contrast("000000", "FFFFFF") == pytest.approx(21)
    assert contrast("767676", "FFFFFF") >= 4.5 > contrast("777777", "FFFFFF")


def test_a_file_of_kind_potx_is_a_template_too():
    held = BytesIO()
    with ZipFile(BytesIO(saved(hospital()))) as old, ZipFile(held, "w") as new:
        for item in old.infolist():
            kind = old.read(item).replace(b"presentation.main+xml", b"template.main+xml")
            new.writestr(item.filename, kind)
    made = forest_talk(CONTENT, template=held.getvalue())
    assert b"template.main+xml" not in look.parts(made)["[Content_Types].xml"]
    assert len(look.opened(made).slides) > 1


def without_title_only() -> bytes:
    made = hospital()
    for layout in [one for one in made.slide_layouts if one.name in ("Title Only",)]:
        made.slide_layouts.remove(layout)
    return saved(made)


def without_room() -> bytes:
    made = hospital()
    made.slide_master.placeholders[0].height = Pt(400)
    return saved(made)


@pytest.mark.parametrize(
    ("given", "why"),
    [
        (b"no such file", "not a readable .pptx or .potx"),
        (without_title_only(), "no layout of it holds a title alone"),
        (without_room(), "too little room"),
        (saved(hospital(width=405, height=540)), "too little room"),
    ],
)
def test_a_template_without_what_is_needed_is_refused_with_what_to_do(given, why):
    with pytest.raises(TemplateError, match=why) as refused:
        template_for(given, FOOT)
    assert "Add one in the master view" in str(refused.value)
