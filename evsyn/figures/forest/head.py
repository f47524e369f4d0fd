"""The head of a page: title, column headings, tick values."""

from evsyn.figures.forest.sheet import Sheet
from evsyn.figures.measure import text_width, typeset
from evsyn.figures.palette import DIM, RULE
from evsyn.figures.running_text import page_head
from evsyn.figures.shapes import Group, Line, Shape
from evsyn.figures.ticks import tick_words


def head(sheet: Sheet) -> tuple[list[Group], float]:
    """Return the groups above the bands, and where they end."""
    content = sheet.content
    groups, y = page_head(sheet, content.banner, content.title, content.subtitle, content.mark)
    if content.is_empty:
        return groups, y
    headings, y = _headings(sheet, y)
    return [*groups, headings], y


def _headings(sheet: Sheet, top: float) -> tuple[Group, float]:
    words, size = sheet.content.words, sheet.size
    y = top + 0.95 * size
    shapes: list[Shape] = []
    bands = sheet.content.bands
    counts = words.count if any(band.observed for band in bands) else ""
    if any(band.lines for band in bands):
        shapes.append(typeset(sheet.label, y, words.study, size, DIM))
    if sheet.fmt.stacked:
        rate = words.rate_alone if sheet.cramped and counts else words.rate
        both = f"{counts}, {rate}" if counts else rate
        shapes.append(typeset(sheet.rate, y, both, size, DIM, anchor="end"))
        y += sheet.line_height
    else:
        if counts:
            shapes.append(typeset(sheet.count, y, counts, size, DIM, anchor="end"))
        shapes.append(typeset(sheet.rate, y, words.rate, size, DIM, anchor="end"))
    shapes += tick_labels(sheet, y)
    return Group("heading", tuple(shapes)), y + 0.45 * size


def tick_labels(sheet: Sheet, baseline: float) -> list[Shape]:
    """Return the tick values on a baseline, with two strokes where the axis does not start at 0."""
    axis, size = sheet.axis, sheet.size
    shapes: list[Shape] = [
        typeset(axis.x(tick / 100), baseline, tick_words(tick), size, DIM, anchor="middle")
        for tick in axis.scale.ticks
    ]
    if axis.scale.start > 0:
        first = text_width(tick_words(axis.scale.start), size)
        x = axis.left - first / 2 - 0.75 * size
        for shift in (0.0, 0.3 * size):
            start, end = baseline + 0.05 * size, baseline - 0.75 * size
            shapes.append(Line(x + shift, start, x + shift + 0.25 * size, end, RULE, 0.1 * size))
    return shapes
