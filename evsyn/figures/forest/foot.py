"""The foot of a page: axis words, legend, caption, status line."""

from evsyn.figures.forest.head import tick_labels
from evsyn.figures.forest.legend import legend
from evsyn.figures.forest.sheet import Sheet
from evsyn.figures.measure import text_width, typeset, wrapped
from evsyn.figures.palette import INK, BandColours
from evsyn.figures.running_text import page_status, running_lines
from evsyn.figures.shapes import Group, Shape
from evsyn.figures.ticks import tick_words
from evsyn.terms import Better


def axis_words(sheet: Sheet) -> str:
    """Return the unit of the axis, which way is better, and that it does not start at 0."""
    words, start = sheet.content.words, sheet.axis.scale.start
    fewer = sheet.content.better is Better.FEWER
    parts = [words.fewer, words.axis] if fewer else [words.axis, words.more]
    if start > 0:
        parts.insert(len(parts) - 1, words.axis_starts.format(start=tick_words(start)))
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


def below(
    sheet: Sheet, top: float, marks: frozenset[str], colours: BandColours
) -> tuple[list[Group], float]:
    """Return axis words, a legend of the marks that occur, and caption; and where they end."""
    axis, y = axis_foot(sheet, top)
    explained, y = legend(sheet, y + 0.3 * sheet.size, marks, colours)
    foot = [text for text in (sheet.content.caption, sheet.content.mark_key) if text]
    caption, y = running_lines(sheet, "caption", " ".join(foot), y + 0.2 * sheet.size)
    return [axis, explained, caption], y


def status(sheet: Sheet, top: float, page: int, pages: int) -> tuple[Group, float]:
    """Return the status line with the page number, and where it ends."""
    content = sheet.content
    return page_status(sheet, content.status_line, content.words.page, top, page, pages)
