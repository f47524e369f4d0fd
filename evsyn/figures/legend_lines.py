"""A legend: marks with their words, in as many lines as they need."""

from collections.abc import Callable, Sequence
from typing import TypeAlias

from evsyn.figures.measure import text_width, typeset, wrapped
from evsyn.figures.palette import INK
from evsyn.figures.paper import Paper
from evsyn.figures.shapes import Group, Shape

#: Room of a mark and between two entries, in units of the type size.
_GLYPH, _BETWEEN = 2.4, 1.6

#: Draws a mark of about two type sizes from its left end at a height.
Glyph: TypeAlias = Callable[[float, float], tuple[Shape, ...]]


def legend_lines(
    paper: Paper, entries: Sequence[tuple[Glyph, str]], top: float
) -> tuple[Group, float]:
    """Return the entries in lines, and where they end."""
    size, x, y = paper.size, paper.left, top + paper.line_height
    shapes: list[Shape] = []
    for glyph, words in entries:
        width = _GLYPH * size + text_width(words, size)
        if x > paper.left and x + width > paper.right:
            x, y = paper.left, y + paper.line_height
        shapes += glyph(x, y - 0.61 * size)
        # Words longer than a line are folded beside their mark.
        for i, line in enumerate(wrapped(words, paper.right - x - _GLYPH * size, size)):
            y += paper.line_height if i else 0
            shapes.append(typeset(x + _GLYPH * size, y - 0.26 * size, line, size, INK))
        x += width + _BETWEEN * size
    return Group("legend", tuple(shapes)), (y if shapes else top)
