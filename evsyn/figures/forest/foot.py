"""The foot of a page: axis words, legend, caption, status line."""

from collections.abc import Sequence

from evsyn.figures.forest.content import ForestContent
from evsyn.figures.forest.head import tick_labels
from evsyn.figures.forest.marks import arrow
from evsyn.figures.forest.scale import tick_label
from evsyn.figures.forest.sheet import Sheet
from evsyn.figures.measure import text_width, typeset, wrapped
from evsyn.figures.palette import DIM, INK, RULE, BandColours, band_colours
from evsyn.figures.shapes import Box, Circle, Group, Line, Rect, Role, Shape
from evsyn.terms import Better

_GLYPH = 2.4


def axis_words(sheet: Sheet) -> str:
    """Return the unit of the axis, which way is better, and that it does not start at 0."""
    words, start = sheet.content.words, sheet.axis.scale.start
    fewer = sheet.content.better is Better.FEWER
    parts = [words.fewer, words.axis] if fewer else [words.axis, words.more]
    if start > 0:
        parts.insert(len(parts) - 1, words.axis_starts.format(start=tick_label(start)))
    return " · ".join(parts)


def axis_foot(sheet: Sheet, top: float) -> tuple[Group, float]:
    """Return tick values and words under the bands, and where they end."""
    size, axis, y = sheet.size, sheet.axis, top
    shapes: list[Shape] = []
    if sheet.fmt.ticks_below:
        y += sheet.line_height
        shapes += tick_labels(sheet, y - 0.25 * size)
    for words in wrapped(axis_words(sheet), sheet.right - sheet.left, size):
        half = text_width(words, size) / 2
        middle = (axis.left + axis.right) / 2
        x = min(max(middle, sheet.left + half), sheet.right - half)
        y += sheet.line_height
        shapes.append(typeset(x, y - 0.25 * size, words, size, INK, anchor="middle"))
    return Group("axis", tuple(shapes)), y


def below(sheet: Sheet, top: float) -> tuple[list[Group], float]:
    """Return axis words, legend and caption, and where they end."""
    axis, y = axis_foot(sheet, top)
    legend, y = _legend(sheet, y + 0.3 * sheet.size)
    foot = [text for text in (sheet.content.caption, sheet.content.mark_key) if text]
    caption, y = _lines(sheet, "caption", " ".join(foot), y + 0.2 * sheet.size)
    return [axis, legend, caption], y


def status(sheet: Sheet, top: float, page: int, pages: int) -> tuple[list[Group], float]:
    """Return the status line with the page number, and where it ends."""
    words = sheet.content.status_line
    if pages > 1:
        words += " " + sheet.content.words.page.format(page=page, pages=pages)
    rule = Line(sheet.left, top, sheet.right, top, RULE, 0.06 * sheet.size)
    group, y = _lines(sheet, "status", words, top + 0.25 * sheet.size)
    return [Group("status", (rule, *group.shapes))], y


def _lines(sheet: Sheet, role: Role, words: str, top: float) -> tuple[Group, float]:
    y = top
    shapes: list[Shape] = []
    for line in wrapped(words, sheet.right - sheet.left, sheet.size):
        y += sheet.line_height
        shapes.append(typeset(sheet.left, y - 0.26 * sheet.size, line, sheet.size, DIM))
    return Group(role, tuple(shapes)), y


def _legend(sheet: Sheet, top: float) -> tuple[Group, float]:
    size, x, y = sheet.size, sheet.left, top + sheet.line_height
    shapes: list[Shape] = []
    for key, words in legend_items(sheet.content, sheet):
        width = _GLYPH * size + text_width(words, size)
        if x > sheet.left and x + width > sheet.right:
            x, y = sheet.left, y + sheet.line_height
        shapes += _glyph(key, x, y - 0.61 * size, size, band_colours(0))
        shapes.append(typeset(x + _GLYPH * size, y - 0.26 * size, words, size, INK))
        x += width + 1.6 * size
    return Group("legend", tuple(shapes)), (y if shapes else top)


def legend_items(content: ForestContent, sheet: Sheet) -> Sequence[tuple[str, str]]:
    """Return the marks that occur and carry no words of their own, with what they mean."""
    words, axis = content.words, sheet.axis
    lines = [line for band in content.bands for line in band.lines]
    rows = [row for band in content.bands for row in band.observed]
    weighted = any(line.weight is not None for line in lines)
    clipped = any(axis.beyond_left(row.low) or axis.beyond_right(row.high) for row in rows)
    found = (
        ("study", words.one_study if weighted else words.one_study_unweighted, bool(lines)),
        ("range", words.prediction, any(band.prediction for band in content.bands)),
        ("wider", words.wider, any(band.wider_prediction for band in content.bands)),
        ("arrow", words.clipped, clipped),
    )
    return [(key, text) for key, text, occurs in found if occurs]


def _glyph(key: str, x: float, y: float, size: float, colours: BandColours) -> tuple[Shape, ...]:
    right, middle = x + 1.9 * size, x + 0.95 * size
    box = Box(x, y - 0.42 * size, right, y + 0.42 * size)
    match key:
        case "study":
            line = Line(x, y, right, y, colours.strong, 0.11 * size)
            return (line, Circle(middle, y, 0.36 * size, colours.strong))
        case "range":
            return (Rect(box, colours.pale, colours.strong, 0.4),)
        case "wider":
            return (Rect(box, None, colours.strong, 0.7, dashed=True),)
        case _:
            line = Line(x, y, right - 0.5 * size, y, colours.strong, 0.11 * size)
            return (line, arrow(right - 0.5 * size, y, size, 1, colours.strong))
