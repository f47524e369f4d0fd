"""The legend: the marks that occur on a page, and what each means."""

from collections.abc import Sequence
from functools import partial

from evsyn.figures.forest.content import Band, ForestContent, StudyLine, UnitLine
from evsyn.figures.forest.marks import arrow, summary_bar
from evsyn.figures.forest.sheet import Sheet
from evsyn.figures.legend_lines import legend_lines
from evsyn.figures.palette import UNIT, BandColours
from evsyn.figures.shapes import Box, Circle, Group, Line, Rect, Shape
from evsyn.figures.unit_mark import unit_triangle

#: Marks that share an entry with another.
_KIND = {"weighted study": "study", "headline, read": "headline"}


def line_marks(sheet: Sheet, line: StudyLine) -> frozenset[str]:
    """Name the marks of a study's row."""
    spot = "study" if line.weight is None else "weighted study"
    return frozenset({spot}) | _ends(sheet, line)


def unit_row_marks(sheet: Sheet, unit: UnitLine) -> frozenset[str]:
    """Name the marks of the unit's row."""
    return frozenset({"unit"}) | _ends(sheet, unit)


def band_marks(band: Band) -> frozenset[str]:
    """Name the marks of a band's pooled rows."""
    headline = "headline, read" if band.reading_is_headline else "headline"
    found = {
        headline: band.headline,
        "read": band.reading,
        "both": band.both,
        "range": band.prediction,
        "wider": band.wider_prediction,
    }
    return frozenset(name for name, drawn in found.items() if drawn is not None)


def _ends(sheet: Sheet, row: StudyLine | UnitLine) -> frozenset[str]:
    clipped = sheet.axis.beyond_left(row.low) or sheet.axis.beyond_right(row.high)
    return frozenset({"arrow"} if clipped else ())


def legend(
    sheet: Sheet, top: float, marks: frozenset[str], colours: BandColours
) -> tuple[Group, float]:
    """Return the entries of the marks named, in lines, and where they end."""
    entries = [
        (partial(_glyph, key, sheet.size, colours), words)
        for key, words in _entries(sheet.content, marks)
    ]
    return legend_lines(sheet, entries, top)


def _entries(content: ForestContent, marks: frozenset[str]) -> Sequence[tuple[str, str]]:
    words = content.words
    weighted = "weighted study" in marks
    # One filled bar in the legend: some of its kind may also be the row to read, and say so.
    filled = words.headline if "headline" in marks else words.headline_and_read
    entries = (
        ("study", words.one_study if weighted else words.one_study_unweighted),
        ("headline", filled),
        ("read", words.read_key),
        ("both", words.both),
        ("range", words.prediction),
        ("wider", words.wider),
        ("unit", content.unit_tag),
        ("arrow", words.clipped),
    )
    kinds = {_KIND.get(mark, mark) for mark in marks}
    return [(key, text) for key, text in entries if key in kinds]


def _glyph(key: str, size: float, colours: BandColours, x: float, y: float) -> tuple[Shape, ...]:
    right, middle = x + 1.9 * size, x + 0.95 * size
    box = Box(x, y - 0.42 * size, right, y + 0.42 * size)
    match key:
        case "study":
            line = Line(x, y, right, y, colours.strong, 0.11 * size)
            return (line, Circle(middle, y, 0.36 * size, colours.strong))
        case "headline" | "read" | "both":
            ends = (x + 0.15 * size, middle, right - 0.15 * size)
            return summary_bar(ends, y, size, colours, is_open=key != "headline")
        case "range":
            return (Rect(box, colours.pale, colours.strong, 0.4),)
        case "wider":
            return (Rect(box, None, colours.strong, 0.7, dashed=True),)
        case "unit":
            line = Line(x, y, right, y, UNIT, 0.18 * size)
            return (line, unit_triangle(middle, y, size))
        case _:
            line = Line(x, y, right - 0.5 * size, y, colours.strong, 0.11 * size)
            return (line, arrow(right - 0.5 * size, y, size, 1, colours.strong))
