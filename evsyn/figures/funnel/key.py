"""The list of units under a funnel whose marks bear numbers."""

from collections.abc import Sequence
from functools import partial

from evsyn.figures.flow import Block
from evsyn.figures.funnel.content import FunnelPoint
from evsyn.figures.funnel.sheet import Sheet
from evsyn.figures.measure import shortened, text_width, typeset
from evsyn.figures.palette import INK
from evsyn.figures.shapes import Group, Shape

_BETWEEN = 1.6
_BAND = 1


def key_blocks(sheet: Sheet, points: Sequence[FunnelPoint]) -> list[Block]:
    """Return the units by number, in as many columns as there is room for, down the columns."""
    size, room = sheet.size, sheet.right - sheet.left
    number = text_width(f"{len(points)}", size) + 0.8 * size
    widest = max(text_width(point.words, size, bold=bool(point.said)) for point in points)
    each = number + widest + _BETWEEN * size
    across = max(1, min(len(points), int((room + _BETWEEN * size) / each)))
    down = -(-len(points) // across)
    width = (room + _BETWEEN * size) / across
    blocks = [Block(0.5 * size, band=_BAND, keep=True)]
    for row in range(down):
        entries = [
            (sheet.left + column * width, i, points[i])
            for column, i in enumerate(range(row, len(points), down))
        ]
        draw = partial(_row, sheet, number, width - _BETWEEN * size, entries)
        blocks.append(Block(sheet.line_height, draw, _BAND))
    return blocks


def _row(
    sheet: Sheet,
    number: float,
    room: float,
    entries: Sequence[tuple[float, int, FunnelPoint]],
    top: float,
    height: float,
) -> Group:
    size, y = sheet.size, sheet.baseline(top + height / 2)
    shapes: list[Shape] = []
    for x, i, point in entries:
        bold = bool(point.said)
        end = x + number - 0.8 * size
        shapes.append(typeset(end, y, f"{i + 1}", size, INK, anchor="end", bold=bold))
        words = _fitting(point, room - number, size, bold=bold)
        shapes.append(typeset(x + number, y, words, size, INK, bold=bold))
    return Group("key", tuple(shapes))


def _fitting(point: FunnelPoint, room: float, size: float, *, bold: bool) -> str:
    """Shorten a name and never its count."""
    if text_width(point.words, size, bold=bold) <= room:
        return point.words
    rest = point.words.removeprefix(point.label)
    name = shortened(point.label, room - text_width(rest, size, bold=bold), size, bold=bold)
    return f"{name}{rest}"
