"""The number of a slide, where its layout has one."""

from typing import Any
from uuid import NAMESPACE_URL, uuid5

from evsyn.reporting.slides.places import placeholder
from evsyn.reporting.slides.words_xml import LANGUAGE, attribute


def number_xml(layout: Any, shape_id: int, number: int, size: float) -> str:
    """Return a slide's number as a field in the layout's own place; empty where it has none.

    Parameters
    ----------
    layout : slide layout
        The layout of the slide.
    shape_id : int
        Number of the shape on the slide.
    number : int
        What a program shows until it counts itself.
    size : float
        Type size in points.
    """
    from pptx.enum.shapes import PP_PLACEHOLDER

    found = placeholder(layout, PP_PLACEHOLDER.SLIDE_NUMBER)
    if found is None:
        return ""
    (place,) = found.element.xpath("./p:nvSpPr/p:nvPr/p:ph")
    kept = "".join(
        f" {name}={attribute(place.get(name))}"
        for name in ("type", "orient", "sz", "idx")
        if place.get(name) is not None
    )
    field = str(uuid5(NAMESPACE_URL, "slide-number")).upper()
    return (
        f'<p:sp><p:nvSpPr><p:cNvPr id="{shape_id}" name="number"/><p:cNvSpPr>'
        f'<a:spLocks noGrp="1"/></p:cNvSpPr><p:nvPr><p:ph{kept}/></p:nvPr></p:nvSpPr><p:spPr/>'
        f'<p:txBody><a:bodyPr/><a:lstStyle/><a:p><a:fld id="{{{field}}}" type="slidenum">'
        f'<a:rPr lang="{LANGUAGE}" sz="{round(100 * size)}"/><a:t>{number}</a:t></a:fld></a:p>'
        "</p:txBody></p:sp>"
    )
