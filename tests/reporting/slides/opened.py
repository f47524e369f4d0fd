"""A talk opened again, as the tests look at it."""

import re
from io import BytesIO
from zipfile import ZipFile

from lxml import etree
from pptx import Presentation
from pptx.enum.shapes import PP_PLACEHOLDER
from pptx.oxml.ns import qn

from evsyn.figures.measure import text_width, wrapped
from evsyn.figures.shapes import Box

POINT = 12700
RELATIONSHIPS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"


def opened(made: bytes):
    return Presentation(BytesIO(made))


def parts(made: bytes) -> dict[str, bytes]:
    with ZipFile(BytesIO(made)) as package:
        return {item.filename: package.read(item) for item in package.infolist()}


def xml_parts(made: bytes):
    """Return every part that is XML, parsed; a broken one raises."""
    return {
        name: etree.fromstring(held)
        for name, held in parts(made).items()
        if name.endswith((".xml", ".rels"))
    }


def title(slide) -> str:
    return slide.shapes.title.text_frame.text


def notes(slide) -> str:
    return slide.notes_slide.notes_text_frame.text if slide.has_notes_slide else ""


def box(element) -> Box:
    off, ext = element.find(f".//{qn('a:off')}"), element.find(f".//{qn('a:ext')}")
    left, top = int(off.get("x")) / POINT, int(off.get("y")) / POINT
    return Box(left, top, left + int(ext.get("cx")) / POINT, top + int(ext.get("cy")) / POINT)


def words(element) -> str:
    return "".join(one.text or "" for one in element.iter(qn("a:t")))


def figure_words(slide):
    """Return the words of a slide's figures that lie level, with box, size and role."""
    found = []
    for element in slide.element.xpath(".//p:grpSp//p:sp[p:txBody]"):
        role = element.xpath("./p:nvSpPr/p:cNvPr/@name")[0].split()[0]
        if not element.xpath(".//a:xfrm/@rot"):
            size = int(element.xpath(".//a:rPr/@sz")[0]) / 100
            found.append((words(element), box(element), size, role))
    return found


def study_rows(slide) -> int:
    return len({round(place.top) for _, place, _, role in figure_words(slide) if role == "study"})


def faults(made: bytes, *, least: float = 14.0) -> list[str]:
    """Return what is wrong with the look of a talk: sizes, rows, overlaps, overflows."""
    shown = opened(made)
    sheet = Box(0, 0, shown.slide_width / POINT, shown.slide_height / POINT)
    told = []
    for number, slide in enumerate(shown.slides, start=1):
        sizes = [int(size) / 100 for size in slide.element.xpath(".//a:rPr/@sz")]
        told += [f"{number}: type of {size}" for size in sizes if size < least]
        if study_rows(slide) > 20:
            told.append(f"{number}: {study_rows(slide)} rows")
        told += [f"{number}: {said}" for said in _places(slide, sheet)]
        told += [f"{number}: {said}" for said in _figure(slide, sheet)]
    return told


def _places(slide, sheet: Box):
    """Yield overlaps of title, body and foot, and words that do not fit them."""
    shapes = [(shape.name, _edges(shape)) for shape in slide.shapes]
    for i, (name, place) in enumerate(shapes):
        if not place.inside(sheet):
            yield f"{name} off the slide"
        for other, beside in shapes[i + 1 :]:
            if place.overlaps(beside, slack=0.5):
                yield f"{name} over {other}"
    for shape in slide.shapes:
        if not shape.has_text_frame or _sizes_itself(shape):
            continue
        place, body = _edges(shape), shape.text_frame
        inset = body.margin_left / POINT
        height = 0.0
        for paragraph in body.paragraphs:
            size = paragraph.runs[0].font.size.pt
            bold = bool(paragraph.runs[0].font.bold)
            said = "".join(run.text for run in paragraph.runs)
            lines = wrapped(said, place.right - place.left - 2 * inset, size, bold=bold)
            height += 1.2 * size * len(lines)
        if height > place.bottom - place.top:
            yield f"{shape.name} overflows"
        if sum(len(wrapped(p.text, place.right - place.left, 14)) for p in body.paragraphs) > 20:
            yield f"{shape.name} has more than 20 lines"


def _sizes_itself(shape) -> bool:
    """Whether a shape is a title or a number, whose type is mostly that of the layout."""
    kind = shape.placeholder_format.type if shape.is_placeholder else None
    return kind is not None and kind != PP_PLACEHOLDER.SUBTITLE


def _figure(slide, sheet: Box):
    shown = figure_words(slide)
    for i, (said, place, size, role) in enumerate(shown):
        if not place.inside(sheet, slack=0.5):
            yield f"{said!r} off the slide"
        if text_width(said, size) > place.right - place.left + 0.5:
            yield f"{said!r} longer than its box"
        for other, beside, _, _ in shown[i + 1 :]:
            # Boxes hold ascenders and descenders; rows may touch by less than a tenth of a line.
            if place.overlaps(beside, slack=0.1 * size) and role != "watermark":
                yield f"{said!r} over {other!r}"


def _edges(shape) -> Box:
    left, top = shape.left / POINT, shape.top / POINT
    return Box(left, top, left + shape.width / POINT, top + shape.height / POINT)


def links(slide):
    """Return the words of each link within the talk, and the slide it leads to."""
    found = []
    for run in slide.element.xpath(".//a:r[a:rPr/a:hlinkClick[@action]]"):
        (number,) = run.xpath("./a:rPr/a:hlinkClick/@r:id")
        found.append((words(run), slide.part.related_part(number).slide))
    return found


def rates(text: str) -> set[str]:
    """Return every rate with limits, as they are printed everywhere."""
    return set(re.findall(r"[\d.]+% \([\d.]+% to [\d.]+%\)", text))
