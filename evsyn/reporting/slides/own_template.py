"""The template of talks that bring none: wide slides, large type, the colours of the figures."""

import re
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, TypeAlias

from evsyn.figures.palette import BANDS, DIM, INK, PAPER
from evsyn.figures.shapes import Box
from evsyn.reporting.slides.words_xml import LANGUAGE

if TYPE_CHECKING:
    from pptx.presentation import Presentation

_WIDTH, _HEIGHT = 960, 540
_Place: TypeAlias = tuple[float, float, float, float]
#: Left edge, top, width and height of what stands on every slide but the first.
_TITLE, _BODY, _NUMBER = (30, 26, 900, 77.4), (30, 108, 900, 360), (840, 5, 90, 20)
#: The same of the first slide.
_COVER_TITLE, _COVER_WORDS = (52, 64, 856, 136), (44.8, 226, 863.2, 222)
#: Where the part of the talk is named.
SECTION = Box(30, 5, 800, 25)
#: The edge at the left of every title, as a band of a figure has it; the shade of the first.
_EDGE, _COVER_EDGE, _COVER_SHADE = (0, 0, 10, 103.4), (0, 50, 24, 164), (0, 50, 960, 164)
_KEPT = ("Title Slide", "Title Only")
_TITLE_SIZE, _COVER_SIZE, _NUMBER_SIZE, _FACE = 28, 40, 14, "Arial"


def own_template() -> "Presentation":
    """Return an empty presentation of 960 by 540 points: a layout to begin, one with a title."""
    from pptx import Presentation
    from pptx.enum.shapes import PP_PLACEHOLDER as KIND
    from pptx.util import Pt

    made = Presentation()
    made.slide_width, made.slide_height = Pt(_WIDTH), Pt(_HEIGHT)
    for layout in [one for one in made.slide_layouts if one.name not in _KEPT]:
        made.slide_layouts.remove(layout)
    cover, plain = (made.slide_layouts.get_by_name(name) for name in _KEPT)
    master = made.slide_master
    _arrange(master, {KIND.TITLE: _TITLE, KIND.BODY: _BODY, KIND.SLIDE_NUMBER: _NUMBER})
    _arrange(plain, {KIND.TITLE: None, KIND.SLIDE_NUMBER: None})
    _arrange(cover, {KIND.CENTER_TITLE: _COVER_TITLE, KIND.SUBTITLE: _COVER_WORDS})
    _set_titles(master)
    _set_number(master)
    _set_cover(cover)
    # What is drawn on a layout lies behind its placeholders. The first slide has its own edge.
    _draw(plain, _EDGE, "accent1", "edge")
    _draw(cover, _COVER_EDGE, "accent1", "edge")
    _draw(cover, _COVER_SHADE, "bg2", "shade")
    _set_theme(made)
    return made


def _arrange(holder: Any, places: Mapping[Any, _Place | None]) -> None:
    """Put placeholders in their places, ``None`` for that of the master; drop all others."""
    from pptx.util import Pt

    for shape in list(holder.placeholders):
        kind = shape.placeholder_format.type
        if kind not in places:
            shape.element.getparent().remove(shape.element)
            continue
        place = places[kind]
        if place is not None:
            shape.left, shape.top, shape.width, shape.height = map(Pt, place)


def _set_titles(master: Any) -> None:
    for body in master.element.xpath(".//p:sp[.//p:ph[@type='title']]//a:bodyPr"):
        body.set("anchor", "b")
        body.set("lIns", "0")
    for level in master.element.xpath(".//p:titleStyle/a:lvl1pPr"):
        level.set("algn", "l")
    for style in master.element.xpath(".//p:titleStyle/a:lvl1pPr/a:defRPr"):
        style.set("sz", str(100 * _TITLE_SIZE))
        style.set("b", "1")


def _set_number(master: Any) -> None:
    number = "./p:cSld/p:spTree/p:sp[.//p:ph[@type='sldNum']]"
    for body in master.element.xpath(f"{number}//a:bodyPr"):
        body.set("rIns", "0")
    for style in master.element.xpath(f"{number}//a:defRPr"):
        style.set("sz", str(100 * _NUMBER_SIZE))
    for faint in master.element.xpath(f"{number}//a:tint"):
        faint.getparent().remove(faint)


def _set_cover(cover: Any) -> None:
    """Large type for the title of the first slide; what is said below starts at the left."""
    from pptx.oxml import parse_xml
    from pptx.oxml.ns import nsdecls

    for style in cover.element.xpath(".//p:sp[.//p:ph[@type='ctrTitle']]//a:lstStyle"):
        given = f'<a:lvl1pPr {nsdecls("a")}><a:defRPr sz="{100 * _COVER_SIZE}"/></a:lvl1pPr>'
        style.append(parse_xml(given))
    for body in cover.element.xpath(".//p:sp[.//p:ph[@type='ctrTitle']]//a:bodyPr"):
        body.set("anchor", "ctr")
    words = ".//p:sp[.//p:ph[@type='subTitle']]//a:lstStyle/*"
    for level in cover.element.xpath(words):
        level.set("algn", "l")
    for ink in cover.element.xpath(f"{words}//a:tint"):
        ink.getparent().remove(ink)


def _draw(layout: Any, place: _Place, colour: str, name: str) -> None:
    """Draw a plain rectangle on a layout, behind all else."""
    from pptx.oxml import parse_xml
    from pptx.oxml.ns import nsdecls
    from pptx.util import Pt

    tree = layout.shapes._spTree
    number = 1 + max(int(one) for one in tree.xpath(".//p:cNvPr/@id"))
    left, top, width, height = map(Pt, place)
    tree.insert(
        2,
        parse_xml(
            f'<p:sp {nsdecls("p", "a")}><p:nvSpPr><p:cNvPr id="{number}" name="{name}"/>'
            f'<p:cNvSpPr/><p:nvPr userDrawn="1"/></p:nvSpPr><p:spPr><a:xfrm>'
            f'<a:off x="{left}" y="{top}"/><a:ext cx="{width}" cy="{height}"/></a:xfrm>'
            '<a:prstGeom prst="rect"><a:avLst/></a:prstGeom>'
            f'<a:solidFill><a:schemeClr val="{colour}"/></a:solidFill>'
            "<a:ln><a:noFill/></a:ln></p:spPr><p:txBody><a:bodyPr/><a:lstStyle/>"
            f'<a:p><a:endParaRPr lang="{LANGUAGE}"/></a:p></p:txBody></p:sp>'
        ),
    )


def _set_theme(made: "Presentation") -> None:
    """Give the theme the colours of the figures and a typeface that every machine has."""
    from pptx.opc.constants import RELATIONSHIP_TYPE

    part = made.slide_master.part.part_related_by(RELATIONSHIP_TYPE.THEME)
    text = part.blob.decode("utf-8")
    accents = {f"accent{i + 1}": band.strong for i, band in enumerate(BANDS)}
    links = {"hlink": BANDS[0].strong, "folHlink": BANDS[2].strong}
    colours = {"dk1": INK, "lt1": PAPER, "dk2": DIM, "lt2": BANDS[0].wash, **accents, **links}
    for name, colour in colours.items():
        put = rf'\g<1><a:srgbClr val="{colour[1:]}"/>\g<2>'
        text = re.sub(rf"(<a:{name}>).*?(</a:{name}>)", put, text, flags=re.S)
    for kind in ("majorFont", "minorFont"):
        text = re.sub(
            rf'(<a:{kind}>\s*<a:latin typeface=")[^"]*', rf"\g<1>{_FACE}", text, flags=re.S
        )
    part._blob = text.encode("utf-8")
