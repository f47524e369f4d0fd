"""A page of a layout as SVG: text stays text, each row keeps its source as id and title."""

from xml.sax.saxutils import escape, quoteattr

from evsyn.figures.measure import left_to_right
from evsyn.figures.palette import PAPER
from evsyn.figures.shapes import (
    Circle,
    FigureLayout,
    Group,
    Line,
    Polygon,
    Polyline,
    Rect,
    Shape,
    Text,
)

_FACES = "'DejaVu Sans', Verdana, Arial, sans-serif"


def svg_text(layout: FigureLayout, page: int = 0, *, ground: bool = True) -> str:
    """Return one page as an SVG document.

    Parameters
    ----------
    layout : FigureLayout
        The figure.
    page : int
        Which page, counted from 0.
    ground : bool
        Whether the paper is drawn; without it what lies behind shows through.

    Notes
    -----
    Rows carry ``id``, ``class`` (their role) and ``<title>``, which browsers show on hover. The
    same layout always gives the same text.
    """
    sheet = layout.pages[page]
    size = f'width="{_n(sheet.width)}{layout.unit}" height="{_n(sheet.height)}{layout.unit}"'
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" {size} '
        f'viewBox="0 0 {_n(sheet.width)} {_n(sheet.height)}" role="group" '
        f"aria-label={quoteattr(_xml(layout.title))} font-family={quoteattr(_FACES)}>",
        f"<desc>{escape(_xml(layout.description))}</desc>",
        *([f'<rect width="100%" height="100%" fill="{PAPER}"/>'] if ground else []),
        *(_group(group) for group in sheet.groups),
        "</svg>",
    ]
    return "\n".join(lines) + "\n"


def _group(group: Group) -> str:
    name = f" id={quoteattr(group.id)}" if group.id else ""
    title = f"<title>{escape(_xml(group.title))}</title>" if group.title else ""
    # The watermark lies over the rows: it must not take their hover text from them.
    hidden = ' aria-hidden="true" pointer-events="none"' if group.role == "watermark" else ""
    shapes = "\n".join(_shape(shape) for shape in group.shapes)
    return f'<g class="{group.role}"{name}{hidden}>{title}\n{shapes}\n</g>'


def _shape(shape: Shape) -> str:
    match shape:
        case Text():
            return _text(shape)
        case Line(x1, y1, x2, y2, colour, thickness):
            ends = f'x1="{_n(x1)}" y1="{_n(y1)}" x2="{_n(x2)}" y2="{_n(y2)}"'
            return f'<line {ends} stroke="{colour}" stroke-width="{_n(thickness)}"/>'
        case Polyline(points, colour, thickness, dashed):
            run = " ".join(f"{_n(x)},{_n(y)}" for x, y in points)
            paint = f'fill="none" stroke="{colour}" stroke-width="{_n(thickness)}"'
            return f'<polyline points="{run}" {paint}{_dashes(thickness) if dashed else ""}/>'
        case Circle(x, y, radius, fill):
            return f'<circle cx="{_n(x)}" cy="{_n(y)}" r="{_n(radius)}" fill="{fill}"/>'
        case Polygon():
            run = " ".join(f"{_n(x)},{_n(y)}" for x, y in shape.points)
            return f'<polygon points="{run}"{_paint(shape)}/>'
        case Rect():
            box = shape.box
            place = f'x="{_n(box.left)}" y="{_n(box.top)}"'
            extent = f'width="{_n(box.right - box.left)}" height="{_n(box.bottom - box.top)}"'
            return f"<rect {place} {extent}{_paint(shape)}/>"


def _text(text: Text) -> str:
    weight = ' font-weight="bold"' if text.bold else ""
    anchor = "" if text.anchor == "start" else f' text-anchor="{text.anchor}"'
    place = f'x="{_n(text.x)}" y="{_n(text.y)}"'
    turn = (
        f' transform="rotate({_n(-text.rotation)} {_n(text.x)} {_n(text.y)})"'
        if text.rotation
        else ""
    )
    seen = f' fill-opacity="{_n(text.opacity)}"' if text.opacity < 1 else ""
    style = f'font-size="{_n(text.size)}" fill="{text.colour}"{seen}{weight}{anchor}{turn}'
    return f"<text {place} {style}>{escape(left_to_right(_xml(text.words)))}</text>"


def _paint(shape: Polygon | Rect) -> str:
    if shape.fill is None and shape.stroke is None:
        return ' fill="none" pointer-events="all"'
    edge = ""
    if shape.stroke is not None:
        edge = f' stroke="{shape.stroke}" stroke-width="{_n(shape.thickness)}"'
        if shape.dashed:
            edge += _dashes(shape.thickness)
    return f' fill="{shape.fill or "none"}"{edge}'


def _dashes(thickness: float) -> str:
    return f' stroke-dasharray="{_n(4 * thickness)} {_n(3 * thickness)}"'


def _n(value: float) -> str:
    return f"{value:.3f}".rstrip("0").rstrip(".") if value else "0"


def _xml(words: str) -> str:
    """Drop the letters that XML 1.0 forbids."""
    return "".join(
        c
        for c in words
        if c in "\t\n\r"
        or "\x20" <= c <= "\ud7ff"
        or "\ue000" <= c <= "\ufffd"
        or c >= "\U00010000"
    )
