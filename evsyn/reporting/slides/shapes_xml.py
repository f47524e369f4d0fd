"""A figure's shapes as native shapes of a slide: words stay words, nothing becomes a picture."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from evsyn.figures.shapes import (
    ASCENT,
    DESCENT,
    Box,
    Circle,
    Group,
    Line,
    Page,
    Polygon,
    Polyline,
    Rect,
    Shape,
    Text,
)
from evsyn.reporting.slides.colours import Theme, fill
from evsyn.reporting.slides.words_xml import attribute, run_xml

EMU_PER_POINT = 12700
#: Marks a shape as made for words.
_WORDS = ' txBox="1"'
_ALIGN = {"start": "l", "middle": "ctr", "end": "r"}
#: The slide has these itself.
_LEFT_OUT = ("invented", "audience", "status")


@dataclass(slots=True)
class Pen:
    """Turns shapes into XML at a place of the slide, and numbers them.

    Parameters
    ----------
    left, top : float
        Where the figure's corner stands, in the figure's points.
    scale : float
        Points of the slide for one of the figure.
    theme : Theme
        The colours of the file.
    last_id : int
        The last number given to a shape of the slide.
    """

    left: float
    top: float
    scale: float
    theme: Theme
    last_id: int

    def figure(self, page: Page, name: str, description: str) -> str:
        """Return a figure as one group that says in words what it shows."""
        number = self._next()
        kept = [group for group in page.groups if group.role not in _LEFT_OUT]
        drawn = "".join(self._shape(shape, group) for group in kept for shape in group.shapes)
        around = self._place(_around(shape for group in kept for shape in group.shapes))
        inner = around.replace("a:off", "a:chOff").replace("a:ext", "a:chExt")
        return (
            f'<p:grpSp><p:nvGrpSpPr><p:cNvPr id="{number}" name={attribute(name)} '
            f"descr={attribute(description)}/><p:cNvGrpSpPr/><p:nvPr/></p:nvGrpSpPr><p:grpSpPr>"
            f"<a:xfrm>{around}{inner}</a:xfrm></p:grpSpPr>{drawn}</p:grpSp>"
        )

    def _shape(self, shape: Shape, group: Group) -> str:
        match shape:
            case Text():
                return self._text(shape, group.role)
            case Line(x1, y1, x2, y2, colour, thickness):
                return self._line(x1, y1, x2, y2, self._edge(colour, thickness), group.role)
            case Polyline(points, colour, thickness, dashed):
                edge = self._edge(colour, thickness, dashed=dashed)
                return self._path(points, "<a:noFill/>", edge, group.role, closed=False)
            case Circle(x, y, radius, colour):
                box = Box(x - radius, y - radius, x + radius, y + radius)
                look = f"{fill(colour, self.theme)}<a:ln><a:noFill/></a:ln>"
                return self._preset("ellipse", box, look, group.role)
            case Polygon():
                inside, edge = self._paint(shape)
                return self._path(shape.points, inside, edge, group.role, closed=True)
            case Rect():
                if shape.fill is None and shape.stroke is None:
                    return ""
                return self._preset("rect", shape.box, "".join(self._paint(shape)), group.role)

    def _text(self, text: Text, role: str) -> str:
        if not text.words:
            return ""
        paint = fill(text.colour, self.theme, opacity=text.opacity, words=True)
        said = run_xml(text.words, size=text.size * self.scale, bold=text.bold, paint=paint)
        turn = f' rot="{round(-60000 * text.rotation) % 21600000}"' if text.rotation else ""
        return (
            f"<p:sp>{self._named(role, _WORDS)}<p:spPr><a:xfrm{turn}>"
            f"{self._place(text_box(text))}</a:xfrm>"
            '<a:prstGeom prst="rect"><a:avLst/></a:prstGeom><a:noFill/></p:spPr><p:txBody>'
            '<a:bodyPr wrap="none" lIns="0" tIns="0" rIns="0" bIns="0" anchor="ctr">'
            f'<a:noAutofit/></a:bodyPr><a:lstStyle/><a:p><a:pPr algn="{_ALIGN[text.anchor]}"/>'
            f"{said}</a:p></p:txBody></p:sp>"
        )

    def _line(self, x1: float, y1: float, x2: float, y2: float, edge: str, role: str) -> str:
        box = Box(min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2))
        flip = ' flipV="1"' if (x2 - x1) * (y2 - y1) < 0 else ""
        named = self._named(role).replace("p:nvSpPr", "p:nvCxnSpPr").replace("cNvSp", "cNvCxnSp")
        return (
            f"<p:cxnSp>{named}<p:spPr><a:xfrm{flip}>{self._place(box)}</a:xfrm>"
            f'<a:prstGeom prst="line"><a:avLst/></a:prstGeom>{edge}</p:spPr></p:cxnSp>'
        )

    def _preset(self, kind: str, box: Box, look: str, role: str) -> str:
        return (
            f"<p:sp>{self._named(role)}<p:spPr><a:xfrm>{self._place(box)}</a:xfrm>"
            f'<a:prstGeom prst="{kind}"><a:avLst/></a:prstGeom>{look}</p:spPr></p:sp>'
        )

    def _path(
        self,
        points: Sequence[tuple[float, float]],
        inside: str,
        edge: str,
        role: str,
        *,
        closed: bool,
    ) -> str:
        box = _around_points(points)
        width, height = self._emu(box.right - box.left), self._emu(box.bottom - box.top)
        steps = "".join(
            f'<a:{"lnTo" if i else "moveTo"}><a:pt x="{self._emu(x - box.left)}" '
            f'y="{self._emu(y - box.top)}"/></a:{"lnTo" if i else "moveTo"}>'
            for i, (x, y) in enumerate(points)
        )
        end = "<a:close/>" if closed else ""
        return (
            f"<p:sp>{self._named(role)}<p:spPr><a:xfrm>{self._place(box)}</a:xfrm><a:custGeom>"
            "<a:avLst/><a:gdLst/><a:ahLst/><a:cxnLst/>"
            '<a:rect l="0" t="0" r="r" b="b"/>'
            f'<a:pathLst><a:path w="{width}" h="{height}">{steps}{end}</a:path></a:pathLst>'
            f"</a:custGeom>{inside}{edge}</p:spPr></p:sp>"
        )

    def _paint(self, shape: Polygon | Rect) -> tuple[str, str]:
        inside = "<a:noFill/>" if shape.fill is None else fill(shape.fill, self.theme)
        if shape.stroke is None:
            return inside, "<a:ln><a:noFill/></a:ln>"
        return inside, self._edge(shape.stroke, shape.thickness, dashed=shape.dashed)

    def _edge(self, colour: str, thickness: float, *, dashed: bool = False) -> str:
        dashes = '<a:prstDash val="dash"/>' if dashed else ""
        return (
            f'<a:ln w="{self._emu(thickness)}" cap="flat">{fill(colour, self.theme)}{dashes}'
            '<a:miter lim="800000"/></a:ln>'
        )

    def _named(self, role: str, kind: str = "") -> str:
        number = self._next()
        return (
            f'<p:nvSpPr><p:cNvPr id="{number}" name="{role} {number}"/><p:cNvSpPr{kind}/>'
            "<p:nvPr/></p:nvSpPr>"
        )

    def _place(self, box: Box) -> str:
        left, top = self._emu(self.left + box.left), self._emu(self.top + box.top)
        width, height = self._emu(box.right - box.left), self._emu(box.bottom - box.top)
        return f'<a:off x="{left}" y="{top}"/><a:ext cx="{width}" cy="{height}"/>'

    def _emu(self, length: float) -> int:
        return round(length * self.scale * EMU_PER_POINT)

    def _next(self) -> int:
        self.last_id += 1
        return self.last_id


def text_box(text: Text) -> Box:
    """Return the box of words before it is turned, so that turning it about its middle fits.

    Words turn about their anchor on the baseline, boxes of a slide about their middle.
    """
    if not text.rotation:
        return text.box
    across = {"start": 0.5, "middle": 0.0, "end": -0.5}[text.anchor] * text.width
    down = (DESCENT - ASCENT) / 2 * text.size
    angle = math.radians(text.rotation)
    x = text.x + across * math.cos(angle) + down * math.sin(angle)
    y = text.y - across * math.sin(angle) + down * math.cos(angle)
    half = (ASCENT + DESCENT) / 2 * text.size
    return Box(x - text.width / 2, y - half, x + text.width / 2, y + half)


def _around(shapes: Iterable[Shape]) -> Box:
    points: list[tuple[float, float]] = []
    for shape in shapes:
        match shape:
            case Text():
                box = shape.box if not shape.rotation else text_box(shape)
                points += [(box.left, box.top), (box.right, box.bottom)]
            case Line(x1, y1, x2, y2, _, _):
                points += [(x1, y1), (x2, y2)]
            case Polyline() | Polygon():
                points += shape.points
            case Circle(x, y, radius, _):
                points += [(x - radius, y - radius), (x + radius, y + radius)]
            case Rect():
                box = shape.box
                points += [(box.left, box.top), (box.right, box.bottom)]
    return _around_points(points)


def _around_points(points: Sequence[tuple[float, float]]) -> Box:
    xs, ys = zip(*points, strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))
