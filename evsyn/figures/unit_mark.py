"""The marks of a unit's own figure, the same in every figure."""

from evsyn.figures.palette import PAPER, UNIT
from evsyn.figures.shapes import Polygon, Polyline


def unit_triangle(x: float, y: float, size: float) -> Polygon:
    """Return the unit's upright triangle."""
    half = 0.5 * size
    points = ((x, y - half), (x + half, y + 0.8 * half), (x - half, y + 0.8 * half))
    return Polygon(points, UNIT, PAPER, 0.06 * size)


def bracket_across(left: float, right: float, top: float, size: float) -> Polyline:
    """Return a bracket, open upwards, under the counts that ours may be."""
    bottom = top + 0.4 * size
    return Polyline(((left, top), (left, bottom), (right, bottom), (right, top)), UNIT, 0.14 * size)


def bracket_up(x: float, low: float, high: float, size: float) -> Polyline:
    """Return a bracket, open to the right, beside the shares that ours may be."""
    end = x + 0.4 * size
    return Polyline(((end, low), (x, low), (x, high), (end, high)), UNIT, 0.14 * size)
