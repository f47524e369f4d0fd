"""The marks of the plot: intervals, weighted spots, tapered bars, the unit's triangle."""

import math

from evsyn.figures.forest.content import StudyLine, Summary, UnitLine
from evsyn.figures.forest.scale import Axis
from evsyn.figures.palette import PAPER, UNIT, BandColours
from evsyn.figures.shapes import Box, Circle, Line, Polygon, Rect, Shape
from evsyn.figures.unit_mark import unit_triangle

#: In units of the type size: radius of the largest and smallest spot, half height of a summary.
LARGEST_SPOT, SMALLEST_SPOT, HALF_BAR = 0.46, 0.18, 0.40
_UNWEIGHTED_SPOT = 0.26


def arrow(x: float, y: float, size: float, direction: int, colour: str) -> Polygon:
    """Return the head that says an interval goes on; ``direction`` is 1 to the right, else -1."""
    back, half = x - direction * 0.1 * size, 0.26 * size
    return Polygon(((x + direction * 0.5 * size, y), (back, y - half), (back, y + half)), colour)


def interval(
    axis: Axis, low: float, high: float, y: float, size: float, colour: str, thickness: float
) -> tuple[Shape, ...]:
    """Return an interval's line, with a head at each end that leaves the axis."""
    line = Line(axis.x(low), y, axis.x(high), y, colour, thickness)
    heads = []
    if axis.beyond_left(low):
        heads.append(arrow(axis.left, y, size, -1, colour))
    if axis.beyond_right(high):
        heads.append(arrow(axis.right, y, size, 1, colour))
    return (line, *heads)


def study_marks(
    axis: Axis, line: StudyLine, largest: float | None, y: float, size: float, colours: BandColours
) -> tuple[Shape, ...]:
    """Return a study's interval and its spot, whose area follows its share of weight."""
    if line.weight is None or not largest:
        radius = _UNWEIGHTED_SPOT * size
    else:
        share = math.sqrt(max(line.weight, 0.0) / largest)
        radius = size * max(SMALLEST_SPOT, LARGEST_SPOT * share)
    stroke = interval(axis, line.low, line.high, y, size, colours.strong, 0.11 * size)
    return (*stroke, Circle(axis.x(line.estimate), y, radius, colours.strong))


def summary_marks(
    axis: Axis, summary: Summary, y: float, size: float, colours: BandColours, *, is_open: bool
) -> tuple[Shape, ...]:
    """Return a pooled row's bar."""
    places = (axis.x(summary.low), axis.x(summary.estimate), axis.x(summary.high))
    return summary_bar(places, y, size, colours, is_open=is_open)


def summary_bar(
    places: tuple[float, float, float],
    y: float,
    size: float,
    colours: BandColours,
    *,
    is_open: bool,
) -> tuple[Shape, ...]:
    """Return a bar that tapers to the limits, with a slit at the estimate; open or filled."""
    low, middle, high = places
    half = HALF_BAR * size
    shoulder_low, shoulder_high = (low + middle) / 2, (middle + high) / 2
    points = (
        (low, y),
        (shoulder_low, y - half),
        (shoulder_high, y - half),
        (high, y),
        (shoulder_high, y + half),
        (shoulder_low, y + half),
    )
    fill, slit = (PAPER, colours.strong) if is_open else (colours.strong, PAPER)
    bar = Polygon(points, fill, colours.strong, 0.12 * size)
    return (bar, Line(middle, y - 0.8 * half, middle, y + 0.8 * half, slit, 0.13 * size))


def prediction_marks(
    axis: Axis,
    prediction: tuple[float, float] | None,
    wider: tuple[float, float] | None,
    top: float,
    bottom: float,
    colours: BandColours,
) -> tuple[Shape, ...]:
    """Return the range for a new setting as a pale bar; the wider one as a dashed outline."""
    shapes: list[Shape] = []
    if prediction is not None:
        box = Box(axis.x(prediction[0]), top, axis.x(prediction[1]), bottom)
        shapes.append(Rect(box, colours.pale, colours.strong, 0.4))
    if wider is not None:
        box = Box(axis.x(wider[0]), top, axis.x(wider[1]), bottom)
        shapes.append(Rect(box, None, colours.strong, 0.7, dashed=True))
    return tuple(shapes)


def unit_marks(axis: Axis, unit: UnitLine, y: float, size: float) -> tuple[Shape, ...]:
    """Return the unit's interval with an upright triangle."""
    stroke = interval(axis, unit.low, unit.high, y, size, UNIT, 0.18 * size)
    return (*stroke, unit_triangle(axis.x(unit.estimate), y, size))
