"""The legend of count strips: the marks that occur, and what each means."""

from functools import partial

from evsyn.figures.legend_lines import legend_lines
from evsyn.figures.palette import DIM, PAPER, BandColours
from evsyn.figures.shapes import Box, Group, Line, Rect, Shape
from evsyn.figures.strip.marks import end_bar
from evsyn.figures.strip.sheet import Sheet
from evsyn.figures.unit_mark import bracket_across, unit_triangle


def strip_legend(
    sheet: Sheet, top: float, marks: frozenset[str], colours: BandColours
) -> tuple[Group, float]:
    """Return the entries of the marks named, in lines, and where they end."""
    words = sheet.content.words
    entries = (
        ("column", words.column),
        ("unjudged", words.unjudged),
        ("beyond", words.beyond),
        ("bar", words.bar),
        ("average", words.average),
        ("ours", words.unit),
        ("bracket", words.bracket),
    )
    drawn = [
        (partial(_glyph, key, sheet.size, colours), said) for key, said in entries if key in marks
    ]
    return legend_lines(sheet, drawn, top)


def _glyph(key: str, size: float, colours: BandColours, x: float, y: float) -> tuple[Shape, ...]:
    middle = x + 0.95 * size
    column = Box(middle - 0.6 * size, y - 0.42 * size, middle + 0.6 * size, y + 0.42 * size)
    match key:
        case "column":
            return (Rect(column, colours.pale, colours.strong, 0.06 * size),)
        case "unjudged":
            return (Rect(column, PAPER, colours.strong, 0.06 * size, dashed=True),)
        case "beyond":
            return (Rect(column, PAPER, colours.strong, 0.06 * size),)
        case "bar":
            return (end_bar(x + 0.5 * size, y - 0.42 * size, y + 0.42 * size, size, 1),)
        case "average":
            return (Line(x + 0.3 * size, y, x + 1.6 * size, y, DIM, 0.08 * size),)
        case "ours":
            return (unit_triangle(middle, y - 0.1 * size, 0.85 * size),)
        case _:
            return (bracket_across(x + 0.2 * size, x + 1.7 * size, y - 0.2 * size, size),)
