"""Slide numbers where the layout has them, and the parts of a talk as a program lists them."""

from collections.abc import Iterable
from itertools import groupby
from typing import Any
from uuid import NAMESPACE_URL, uuid5

from evsyn.reporting.slides.places import placeholder
from evsyn.reporting.slides.words_xml import LANGUAGE, attribute

#: Names the list of sections among the extensions of a presentation (Microsoft, MS-PPTX 2.6.8).
_LIST = "{521415D9-36F7-43E2-AB2F-B90AF26B5E84}"
_SPACES = (
    'xmlns:p="http://schemas.openxmlformats.org/presentationml/2006/main" '
    'xmlns:p14="http://schemas.microsoft.com/office/powerpoint/2010/main"'
)


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


def sections_xml(sections: Iterable[tuple[str, int]]) -> str:
    """Return the parts of a talk as an extension of its presentation.

    Parameters
    ----------
    sections : iterable of (str, int)
        For each slide in order, the part it belongs to and its number in the presentation.
    """
    told = ""
    for place, (name, slides) in enumerate(groupby(sections, key=lambda pair: pair[0])):
        own = str(uuid5(NAMESPACE_URL, f"section-{place}")).upper()
        listed = "".join(f'<p14:sldId id="{number}"/>' for _, number in slides)
        told += (
            f'<p14:section name={attribute(name)} id="{{{own}}}"><p14:sldIdLst>{listed}'
            "</p14:sldIdLst></p14:section>"
        )
    return (
        f'<p:extLst {_SPACES}><p:ext uri="{_LIST}"><p14:sectionLst>{told}</p14:sectionLst>'
        "</p:ext></p:extLst>"
    )
