"""A hospital's own template: its title-only layout, its colours, and the room it leaves."""

from collections.abc import Sequence
from dataclasses import dataclass
from io import BytesIO
from typing import TYPE_CHECKING, Any

from evsyn.figures.measure import wrapped
from evsyn.figures.shapes import Box
from evsyn.reporting.slides.colours import Theme
from evsyn.reporting.slides.own_template import own_template
from evsyn.reporting.slides.package import openable
from evsyn.reporting.slides.room import HEIGHT, LEAST, LINE, TITLE_INSET, Room
from evsyn.wording.report_slides import template_refusal

if TYPE_CHECKING:
    from pptx.presentation import Presentation

_EMU_PER_POINT = 12700
_EDGE, _UNDER_TITLE, _ABOVE_FOOT, _BOTTOM = 24.0, 8.0, 6.0, 10.0
#: Less room than this holds no figure.
_LEAST_WIDTH, _LEAST_HEIGHT = 600.0, 300.0
#: Room inside the box of the foot.
FOOT_INSET = 4.0
#: What lies lower than this share of a layout belongs to its foot.
_LOW = 0.7


class TemplateError(ValueError):
    """A template without what a talk needs; its words are for whoever gave it."""


@dataclass(frozen=True, slots=True)
class Template:
    """An empty presentation ready to be filled.

    Parameters
    ----------
    presentation : Presentation
        Without slides.
    layout : slide layout
        The one with a title alone.
    theme : Theme
        Its colours.
    room : Room
        Where things stand.
    scale : float
        Points of its slides for one point of the room.
    """

    presentation: "Presentation"
    layout: Any
    theme: Theme
    room: Room
    scale: float


def template_for(given: bytes | None, foot: str) -> Template:
    """Return a template, a hospital's own or ours, with room for the words of the foot.

    Parameters
    ----------
    given : bytes or None
        A PowerPoint file or template.
    foot : str
        What stands under every slide.

    Raises
    ------
    TemplateError
        If the template cannot be read, has no layout with a title alone, or leaves too little
        room.
    """
    made = own_template() if given is None else _opened(given)
    layout = _title_only(made)
    scale = (made.slide_height or 0) / _EMU_PER_POINT / HEIGHT
    if not scale:
        raise TemplateError(template_refusal("it does not say how large its slides are"))
    room = _room(made, layout, scale, foot)
    return Template(made, layout, _theme(layout.slide_master), room, scale)


def _opened(given: bytes) -> "Presentation":
    from pptx import Presentation

    try:
        made = Presentation(BytesIO(openable(given)))
    except Exception as error:
        raise TemplateError(template_refusal("it is not a readable .pptx or .potx file")) from error
    _emptied(made)
    return made


def _emptied(made: "Presentation") -> None:
    """Drop the slides of a template, and what speaks of them."""
    listed = made.slides._sldIdLst
    for slide in list(listed):
        made.part.drop_rel(slide.rId)
        listed.remove(slide)
    for left in made.element.xpath("./p:custShowLst | ./p:extLst"):
        made.element.remove(left)


def _title_only(made: "Presentation") -> Any:
    from pptx.enum.shapes import PP_PLACEHOLDER

    beside = {PP_PLACEHOLDER.DATE, PP_PLACEHOLDER.FOOTER, PP_PLACEHOLDER.SLIDE_NUMBER}
    for master in made.slide_masters:
        for layout in master.slide_layouts:
            kinds = [shape.placeholder_format.type for shape in layout.placeholders]
            if [kind for kind in kinds if kind not in beside] == [PP_PLACEHOLDER.TITLE]:
                return layout
    raise TemplateError(template_refusal("no layout of it holds a title alone"))


def _room(made: "Presentation", layout: Any, scale: float, foot: str) -> Room:
    width = (made.slide_width or 0) / _EMU_PER_POINT / scale
    title, low = _title_box(layout, scale), HEIGHT - _BOTTOM
    for shape in (*layout.shapes, *layout.slide_master.shapes):
        box = _box_of(shape, scale)
        if box is not None and box.top > _LOW * HEIGHT and box.bottom - box.top < HEIGHT / 4:
            low = min(low, box.top - 2)
    edge = min(title.left, width - title.right)
    edge = edge if _EDGE <= edge < width / 8 else _EDGE
    left, right = edge + _title_inset(layout) / scale, width - edge
    lines = len(wrapped(foot, right - left - 2 * FOOT_INSET, LEAST, bold=True))
    foot_top = low - lines * LINE * LEAST - 2 * FOOT_INSET
    body = Box(left, title.bottom + _UNDER_TITLE, right, foot_top - _ABOVE_FOOT)
    if body.right - body.left < _LEAST_WIDTH or body.bottom - body.top < _LEAST_HEIGHT:
        raise TemplateError(template_refusal("between title and foot it leaves too little room"))
    return Room(width, title, body, Box(left, foot_top, right, low), _title_size(layout) / scale)


def _title_box(layout: Any, scale: float) -> Box:
    box = _box_of(layout.placeholders[_title_index(layout.placeholders)], scale)
    if box is None:
        raise TemplateError(template_refusal("its title has no place"))
    return box


def _title_index(placeholders: Sequence[Any]) -> int:
    from pptx.enum.shapes import PP_PLACEHOLDER

    kinds = [shape.placeholder_format.type for shape in placeholders]
    return kinds.index(PP_PLACEHOLDER.TITLE)


def _box_of(shape: Any, scale: float) -> Box | None:
    edges = (shape.left, shape.top, shape.width, shape.height)
    if any(edge is None for edge in edges):
        return None
    left, top, width, height = (edge / _EMU_PER_POINT / scale for edge in edges)
    return Box(left, top, left + width, top + height)


def _title_size(layout: Any) -> float:
    """Return the type size of titles in points: the layout's, else the master's, else its style."""
    here = ".//p:sp[.//p:ph[@type='title']]//a:lstStyle/a:lvl1pPr/a:defRPr/@sz"
    master = layout.slide_master
    for element, path in (
        (layout.element, here),
        (master.element, here),
        (master.element, ".//p:titleStyle/a:lvl1pPr/a:defRPr/@sz"),
    ):
        found = element.xpath(path)
        if found:
            return int(found[0]) / 100
    return 28.0


def _title_inset(layout: Any) -> float:
    """Return the room between a title's box and its words, in points."""
    path = ".//p:sp[.//p:ph[@type='title']]//a:bodyPr/@lIns"
    for element in (layout.element, layout.slide_master.element):
        found = element.xpath(path)
        if found:
            return int(found[0]) / _EMU_PER_POINT
    return TITLE_INSET[0]


def _theme(master: Any) -> Theme:
    """Return the colours of a master's theme as its own map names them."""
    from lxml import etree
    from pptx.opc.constants import RELATIONSHIP_TYPE
    from pptx.oxml.ns import qn

    blob = master.part.part_related_by(RELATIONSHIP_TYPE.THEME).blob
    scheme = etree.fromstring(blob).find(f".//{qn('a:clrScheme')}")
    named = {etree.QName(one).localname: _hex(one[0]) for one in scheme}
    mapped = dict(master.element.find(qn("p:clrMap")).attrib)
    accents = tuple(named.get(mapped.get(f"accent{i}", ""), "000000") for i in range(1, 6))
    ground, ink = mapped.get("bg1", "lt1"), mapped.get("tx1", "dk1")
    return Theme(named.get(ground, "FFFFFF"), named.get(ink, "000000"), accents)


def _hex(colour: Any) -> str:
    written = str(colour.get("lastClr") or colour.get("val") or "")
    is_hex = len(written) == 6 and all(c in "0123456789abcdefABCDEF" for c in written)
    return written.upper() if is_hex else "000000"
