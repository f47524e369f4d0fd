"""The template of talks that bring none: wide slides, large type, the colours of the figures."""

import re
from typing import TYPE_CHECKING

from evsyn.figures.palette import BANDS, DIM, INK, PAPER

if TYPE_CHECKING:
    from pptx.presentation import Presentation

_WIDTH, _HEIGHT = 960, 540
#: Left edge, top, width and height of title and body on the master.
_TITLE, _BODY = (30, 12, 900, 84), (30, 104, 900, 360)
_TITLE_SIZE, _FACE = 28, "Arial"


def own_template() -> "Presentation":
    """Return an empty presentation of 960 by 540 points with one layout, a title alone."""
    from pptx import Presentation
    from pptx.enum.shapes import PP_PLACEHOLDER
    from pptx.util import Pt

    made = Presentation()
    made.slide_width, made.slide_height = Pt(_WIDTH), Pt(_HEIGHT)
    (kept,) = [one for one in made.slide_layouts if one.name == "Title Only"]
    for layout in [one for one in made.slide_layouts if one is not kept]:
        made.slide_layouts.remove(layout)
    master = made.slide_master
    places = {PP_PLACEHOLDER.TITLE: _TITLE, PP_PLACEHOLDER.BODY: _BODY}
    for holder in (master, kept):
        for shape in list(holder.placeholders):
            place = places.get(shape.placeholder_format.type)
            if place is None:
                shape.element.getparent().remove(shape.element)
            elif holder is master:
                left, top, width, height = map(Pt, place)
                shape.left, shape.top, shape.width, shape.height = left, top, width, height
    for body in master.element.xpath(".//p:sp[.//p:ph[@type='title']]//a:bodyPr"):
        body.set("anchor", "b")
        body.set("lIns", "0")
    for level in master.element.xpath(".//p:titleStyle/a:lvl1pPr"):
        level.set("algn", "l")
    for style in master.element.xpath(".//p:titleStyle/a:lvl1pPr/a:defRPr"):
        style.set("sz", str(100 * _TITLE_SIZE))
        style.set("b", "1")
    _set_theme(made)
    return made


def _set_theme(made: "Presentation") -> None:
    """Give the theme the colours of the figures and a typeface that every machine has."""
    from pptx.opc.constants import RELATIONSHIP_TYPE

    part = made.slide_master.part.part_related_by(RELATIONSHIP_TYPE.THEME)
    text = part.blob.decode("utf-8")
    accents = {f"accent{i + 1}": band.strong for i, band in enumerate(BANDS)}
    links = {"hlink": BANDS[0].strong, "folHlink": BANDS[2].strong}
    colours = {"dk1": INK, "lt1": PAPER, "dk2": DIM, "lt2": BANDS[4].wash, **accents, **links}
    for name, colour in colours.items():
        put = rf'\g<1><a:srgbClr val="{colour[1:]}"/>\g<2>'
        text = re.sub(rf"(<a:{name}>).*?(</a:{name}>)", put, text, flags=re.S)
    for kind in ("majorFont", "minorFont"):
        text = re.sub(
            rf'(<a:{kind}>\s*<a:latin typeface=")[^"]*', rf"\g<1>{_FACE}", text, flags=re.S
        )
    part._blob = text.encode("utf-8")
