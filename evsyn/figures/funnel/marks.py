"""The marks of a funnel: lines, the range, and the units."""

from collections.abc import Sequence

from evsyn.figures.funnel.content import Curve, FunnelPoint, RangeBand, Spot, Stroke
from evsyn.figures.funnel.scales import Ground
from evsyn.figures.funnel.sheet import RADIUS
from evsyn.figures.palette import DIM, PAPER, UNIT, BandColours
from evsyn.figures.shapes import Box, Circle, Polygon, Polyline, Rect, Shape
from evsyn.figures.unit_mark import bracket_up

#: Colour, thickness in units of the type size, and whether it is dashed.
_STROKES = {
    Stroke.ALERT: (DIM, 0.08, False),
    Stroke.ALARM: (DIM, 0.2, False),
    Stroke.WIDE_ALERT: (DIM, 0.08, True),
    Stroke.WIDE_ALARM: (DIM, 0.2, True),
}


def stroke_marks(
    stroke: Stroke, runs: Sequence[Sequence[tuple[float, float]]], size: float
) -> list[Shape]:
    """Return the stretches of a line."""
    colour, thickness, dashed = _STROKES[stroke]
    return [Polyline(tuple(run), colour, thickness * size, dashed) for run in runs if len(run) > 1]


def curve_marks(
    ground: Ground, curve: Curve, size: float, cases: Sequence[int] = ()
) -> list[Shape]:
    """Return a line of the funnel, from where it comes into the axis for good.

    A stepped line dips in and out before that; such a stump is drawn only where a unit of as many
    cases stands.
    """
    runs = ground.runs(curve.places)
    places = [ground.x(number) for number in cases]
    kept = [run for run in runs[:-1] if any(run[0][0] <= x <= run[-1][0] for x in places)]
    return stroke_marks(curve.stroke, [*kept, *runs[-1:]], size)


def band_fill(ground: Ground, band: RangeBand, colours: BandColours) -> list[Shape]:
    """Return the range filled between its edges; nothing where it gives no verdict."""
    if not band.is_judged:
        return []
    upper = [(ground.x(n), ground.y(share)) for n, share in band.upper]
    lower = [(ground.x(n), ground.y(share)) for n, share in band.lower]
    return [Polygon((*upper, *reversed(lower)), colours.pale)]


def band_edges(ground: Ground, band: RangeBand, size: float, colours: BandColours) -> list[Shape]:
    """Return the edges of the range, dashed where it gives no verdict."""
    return [
        Polyline(tuple(run), colours.strong, 0.09 * size, dashed=not band.is_judged)
        for places in (band.upper, band.lower)
        for run in ground.runs(places)
    ]


def spot_mark(spot: Spot, x: float, y: float, size: float) -> Shape:
    """Return a unit's mark: round, or with corners where it is flagged or outside the range."""
    r = RADIUS * size
    match spot:
        case Spot.PLAIN:
            return Circle(x, y, r, UNIT)
        case Spot.ALARM:
            side = 1.1 * r
            return Rect(Box(x - side, y - side, x + side, y + side), UNIT, PAPER, 0.06 * size)
        case _:
            far = 1.45 * r
            points = ((x, y - far), (x + far, y), (x, y + far), (x - far, y))
            return Polygon(points, UNIT, PAPER, 0.06 * size)


def point_marks(ground: Ground, point: FunnelPoint, size: float) -> tuple[Shape, Box]:
    """Return a unit's mark, and the room it takes."""
    x, shares = ground.x(point.cases), point.shares
    if len(shares) > 1:
        low, high = ground.y(min(shares)), ground.y(max(shares))
        return bracket_up(x, low, high, size), Box(x - 0.1 * size, high, x + 0.4 * size, low)
    y = ground.y(shares[0])
    reach = RADIUS * size * (1.0 if point.spot is Spot.PLAIN else 1.45)
    return spot_mark(point.spot, x, y, size), Box(x - reach, y - reach, x + reach, y + reach)
