"""What a layout of a template holds, and where."""

from collections.abc import Sequence
from typing import Any

from evsyn.figures.shapes import Box
from evsyn.reporting.slides.room import TITLE_INSET

EMU_PER_POINT = 12700
#: Type size of titles where nothing says one.
_TITLE_SIZE = 28.0


def layout_holding(made: Any, wanted: Sequence[Any]) -> Any:
    """Return the first layout that holds placeholders of some kinds and no others.

    Date, footer and slide number do not count.

    Parameters
    ----------
    made : Presentation
        The template.
    wanted : sequence of PP_PLACEHOLDER
        The kinds, in order.

    Returns
    -------
    slide layout or None
        ``None`` where there is none.
    """
    from pptx.enum.shapes import PP_PLACEHOLDER

    beside = {PP_PLACEHOLDER.DATE, PP_PLACEHOLDER.FOOTER, PP_PLACEHOLDER.SLIDE_NUMBER}
    for master in made.slide_masters:
        for layout in master.slide_layouts:
            kinds = [shape.placeholder_format.type for shape in layout.placeholders]
            if [kind for kind in kinds if kind not in beside] == list(wanted):
                return layout
    return None


def placeholder(layout: Any, kind: Any) -> Any:
    """Return the placeholder of a kind; ``None`` where a layout has none."""
    found = (shape for shape in layout.placeholders if shape.placeholder_format.type == kind)
    return next(found, None)


def box_of(shape: Any, scale: float) -> Box | None:
    """Return the place of a shape in points of the room; ``None`` where it has none."""
    edges = (shape.left, shape.top, shape.width, shape.height)
    if any(edge is None for edge in edges):
        return None
    left, top, width, height = (edge / EMU_PER_POINT / scale for edge in edges)
    return Box(left, top, left + width, top + height)


def title_size(layout: Any, kind: str) -> float:
    """Return the type size of titles in points: the layout's, else the master's, else its style.

    Parameters
    ----------
    layout : slide layout
        The layout.
    kind : str
        Of the placeholder, as its XML has it: ``title`` or ``ctrTitle``.
    """
    path = ".//p:sp[.//p:ph[@type='{}']]//a:lstStyle/a:lvl1pPr/a:defRPr/@sz"
    master = layout.slide_master
    for element, looked_for in (
        (layout.element, path.format(kind)),
        (master.element, path.format("title")),
        (master.element, ".//p:titleStyle/a:lvl1pPr/a:defRPr/@sz"),
    ):
        found = element.xpath(looked_for)
        if found:
            return int(found[0]) / 100
    return _TITLE_SIZE


def title_inset(layout: Any) -> float:
    """Return the room between a title's box and its words, in points."""
    path = ".//p:sp[.//p:ph[@type='title']]//a:bodyPr/@lIns"
    for element in (layout.element, layout.slide_master.element):
        found = element.xpath(path)
        if found:
            return int(found[0]) / EMU_PER_POINT
    return TITLE_INSET[0]
