"""The legend of a performance funnel: the marks that occur, and what each means."""

from functools import partial

from evsyn.figures.funnel.content import FunnelContent, Spot, Stroke
from evsyn.figures.funnel.marks import spot_mark, stroke_marks
from evsyn.figures.funnel.sheet import Sheet
from evsyn.figures.legend_lines import legend_lines
from evsyn.figures.palette import BANDS
from evsyn.figures.shapes import Box, Group, Line, Polyline, Rect, Shape
from evsyn.figures.unit_mark import bracket_up

_SPOTS = {spot.value: spot for spot in Spot}


def funnel_marks(content: FunnelContent) -> frozenset[str]:
    """Name the marks of a funnel."""
    found: set[str] = set()
    for point in content.points:
        if point.is_drawn:
            found.add(point.spot.value if point.own.is_exact else "bracket")
    strokes = {curve.stroke for curve in content.curves}
    if content.centre is not None and content.band is None:
        found.add("target")
    if strokes:
        found |= {"alert line", "alarm line"}
    if Stroke.WIDE_ALERT in strokes:
        found.add("widened")
    if content.band is not None:
        found |= {"typical", "band" if content.band.is_judged else "unjudged"}
    return frozenset(found)


def funnel_legend(sheet: Sheet, top: float, marks: frozenset[str]) -> tuple[Group, float]:
    """Return the entries of the marks named, in lines, and where they end."""
    words = sheet.content.words
    entries = (
        (Spot.PLAIN.value, words.alone if len(sheet.content.points) == 1 else words.unit),
        (Spot.ALERT.value, words.alerted),
        (Spot.ALARM.value, words.alarmed),
        (Spot.BEYOND.value, words.beyond),
        ("bracket", words.bracket),
        ("target", words.target_key),
        ("alert line", words.alert_key),
        ("alarm line", words.alarm_key),
        ("widened", words.widened_key),
        ("typical", words.typical),
        ("band", words.band),
        ("unjudged", words.unjudged),
    )
    drawn = [(partial(_glyph, key, sheet.size), said) for key, said in entries if key in marks]
    return legend_lines(sheet, drawn, top)


def _glyph(key: str, size: float, x: float, y: float) -> tuple[Shape, ...]:
    right, colours = x + 1.9 * size, BANDS[0]
    if key in _SPOTS:
        return (spot_mark(_SPOTS[key], x + 0.95 * size, y, size),)
    run = [[(x, y), (right, y)]]
    match key:
        case "bracket":
            return (bracket_up(x + 0.75 * size, y + 0.42 * size, y - 0.42 * size, size),)
        case "alert line":
            return tuple(stroke_marks(Stroke.ALERT, run, size))
        case "alarm line":
            return tuple(stroke_marks(Stroke.ALARM, run, size))
        case "widened":
            return tuple(stroke_marks(Stroke.WIDE_ALARM, run, size))
        case "band":
            box = Box(x, y - 0.42 * size, right, y + 0.42 * size)
            return (Rect(box, colours.pale, colours.strong, 0.09 * size),)
        case "unjudged":
            return (Polyline(((x, y), (right, y)), colours.strong, 0.09 * size, dashed=True),)
        case _:
            return (Line(x, y, right, y, colours.strong, 0.13 * size),)
