"""A hospital's own template: its layouts, its colours, and the room they leave."""

from dataclasses import dataclass, replace
from io import BytesIO
from typing import TYPE_CHECKING, Any

from evsyn.figures.measure import wrapped
from evsyn.figures.shapes import Box
from evsyn.reporting.slides.colours import Theme
from evsyn.reporting.slides.own_template import SECTION, own_template
from evsyn.reporting.slides.package import openable
from evsyn.reporting.slides.places import (
    EMU_PER_POINT,
    box_of,
    layout_holding,
    placeholder,
    title_inset,
    title_size,
)
from evsyn.reporting.slides.room import HEIGHT, LEAST, LINE, Cover, Room
from evsyn.wording.report_slides import template_refusal

if TYPE_CHECKING:
    from pptx.presentation import Presentation

_EDGE, _UNDER_TITLE, _ABOVE_FOOT, _BOTTOM = 24.0, 4.0, 6.0, 6.0
#: Less room than this holds no figure.
_LEAST_WIDTH, _LEAST_HEIGHT = 600.0, 280.0
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
    cover : slide layout or None
        The one to begin with, if any.
    theme : Theme
        Its colours.
    room : Room
        Where things stand.
    scale : float
        Points of its slides for one point of the room.
    """

    presentation: "Presentation"
    layout: Any
    cover: Any
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
    from pptx.enum.shapes import PP_PLACEHOLDER as KIND

    made = own_template() if given is None else _opened(given)
    layout = layout_holding(made, [KIND.TITLE])
    if layout is None:
        raise TemplateError(template_refusal("no layout of it holds a title alone"))
    scale = (made.slide_height or 0) / EMU_PER_POINT / HEIGHT
    if not scale:
        raise TemplateError(template_refusal("it does not say how large its slides are"))
    room = _room(made, layout, scale, foot)
    if given is None:
        room = replace(room, section=SECTION)
    cover = layout_holding(made, [KIND.CENTER_TITLE, KIND.SUBTITLE])
    if cover is not None:
        room = _with_cover(room, cover, scale)
    return Template(made, layout, cover, _theme(layout.slide_master), room, scale)


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


def _room(made: "Presentation", layout: Any, scale: float, foot: str) -> Room:
    width = (made.slide_width or 0) / EMU_PER_POINT / scale
    title = _title_box(layout, scale)
    edge = min(title.left, width - title.right)
    edge = edge if _EDGE <= edge < width / 8 else _EDGE
    left, right = edge + title_inset(layout) / scale, width - edge
    place = _foot(layout, scale, Box(left, 0, right, HEIGHT - _BOTTOM), foot)
    body = Box(left, title.bottom + _UNDER_TITLE, right, place.top - _ABOVE_FOOT)
    if body.right - body.left < _LEAST_WIDTH or body.bottom - body.top < _LEAST_HEIGHT:
        raise TemplateError(template_refusal("between title and foot it leaves too little room"))
    return Room(width, title, body, place, title_size(layout, "title") / scale)


def _foot(layout: Any, scale: float, within: Box, words: str) -> Box:
    """Return the lowest place for the words of the foot, over or beside the slide's number."""
    from pptx.enum.shapes import PP_PLACEHOLDER

    # Of placeholders only the number is filled; the others do not show on a slide.
    drawn = [one for one in (*layout.shapes, *layout.slide_master.shapes) if not one.is_placeholder]
    boxes = [box for box in (box_of(shape, scale) for shape in drawn) if box is not None]
    low = min([within.bottom, *(box.top - 2 for box in boxes if _is_low(box))])
    number = placeholder(layout, PP_PLACEHOLDER.SLIDE_NUMBER)
    taken = None if number is None else box_of(number, scale)
    if taken is None or not _is_low(taken):
        return _lowest(replace(within, bottom=low), words)
    over = _lowest(replace(within, bottom=min(low, taken.top - 2)), words)
    beside = replace(within, bottom=low, right=min(within.right, taken.left - _ABOVE_FOOT))
    if beside.right - beside.left < _LEAST_WIDTH / 2:
        return over
    return max(over, _lowest(beside, words), key=lambda box: box.top)


def _is_low(box: Box) -> bool:
    """Whether a shape belongs to the foot of a layout, and not to its ground."""
    return box.top > _LOW * HEIGHT and box.bottom - box.top < HEIGHT / 4


def _lowest(within: Box, words: str) -> Box:
    lines = len(wrapped(words, within.right - within.left - 2 * FOOT_INSET, LEAST, bold=True))
    return replace(within, top=within.bottom - lines * LINE * LEAST - 2 * FOOT_INSET)


def _title_box(layout: Any, scale: float) -> Box:
    from pptx.enum.shapes import PP_PLACEHOLDER

    box = box_of(placeholder(layout, PP_PLACEHOLDER.TITLE), scale)
    if box is None:
        raise TemplateError(template_refusal("its title has no place"))
    return box


def _with_cover(room: Room, layout: Any, scale: float) -> Room:
    """Take the places of a layout to begin with, if they stay clear of each other and the foot."""
    from pptx.enum.shapes import PP_PLACEHOLDER

    kinds = (PP_PLACEHOLDER.CENTER_TITLE, PP_PLACEHOLDER.SUBTITLE)
    title, words = (box_of(placeholder(layout, kind), scale) for kind in kinds)
    if title is None or words is None:
        return room
    sheet = Box(0, 0, room.width, room.foot.top)
    if title.overlaps(words) or not (title.inside(sheet) and words.inside(sheet)):
        return room
    size = title_size(layout, "ctrTitle") / scale
    return replace(room, cover=Cover(title, words, size))


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
