"""The marks of a strip: columns, ticks of the average, end bars, and our own mark."""

from dataclasses import dataclass

from evsyn.figures.palette import DIM, PAPER, RULE, BandColours
from evsyn.figures.shapes import Box, Line, Polygon, Polyline, Rect, Shape
from evsyn.figures.strip.content import Columns

#: Share of a slot that its column fills; narrower slots run together into one stepped shape.
_FILLED, _LEAST_SLOT = 0.74, 4.0
#: In units of the type size: thickness of an end bar, length of its foot.
BAR, _FOOT = 0.3, 0.55


@dataclass(frozen=True, slots=True)
class Ground:
    """Where the columns of a strip stand.

    Parameters
    ----------
    columns : Columns
        What is drawn.
    left, slot : float
        Where the first slot starts, and the width of each.
    top, base : float
        Height of the tallest column, and of the foot of all.
    size : float
        Type size.
    """

    columns: Columns
    left: float
    slot: float
    top: float
    base: float
    size: float

    @property
    def is_narrow(self) -> bool:
        """Whether columns are too narrow to stand apart."""
        return self.slot < _LEAST_SLOT

    @property
    def right(self) -> float:
        """Where the last slot ends."""
        return self.left + self.slot * len(self.columns.ordinary)

    def edge(self, number: int) -> float:
        """Return where the slot of a count starts."""
        return self.left + self.slot * (number - self.columns.first)

    def middle(self, number: int) -> float:
        """Return the middle of a count's slot."""
        return self.edge(number) + self.slot / 2

    def y(self, chance: float) -> float:
        """Return the height of a chance."""
        return self.base - (self.base - self.top) * chance / self.columns.tallest


def chance_marks(ground: Ground, ours: int | None, colours: BandColours) -> list[Shape]:
    """Return the columns, ours filled, and the ticks of the average."""
    return (
        _run_together(ground, ours, colours) if ground.is_narrow else _apart(ground, ours, colours)
    )


def column_paint(columns: Columns, number: int, ours: int | None, colours: BandColours) -> str:
    """Return the fill of a column: ours dark, the range pale, what lies beyond it open."""
    if number == ours:
        return colours.strong
    is_open = columns.is_beyond(number) or not columns.is_judged
    return PAPER if is_open else colours.pale


def _apart(ground: Ground, ours: int | None, colours: BandColours) -> list[Shape]:
    columns, half = ground.columns, _FILLED * ground.slot / 2
    shapes: list[Shape] = []
    for i, chance in enumerate(columns.ordinary):
        number = columns.first + i
        x = ground.middle(number)
        fill = column_paint(columns, number, ours, colours)
        box = Box(x - half, ground.y(chance), x + half, ground.base)
        shapes.append(
            Rect(
                box,
                fill,
                colours.strong,
                0.06 * ground.size,
                dashed=not columns.is_judged and number != ours,
            )
        )
    for i, chance in enumerate(columns.average):
        x, y = ground.middle(columns.first + i), ground.y(chance)
        reach = min(1.15 * half, ground.slot / 2)
        shapes.append(Line(x - reach, y, x + reach, y, DIM, 0.08 * ground.size))
    return shapes


def _run_together(ground: Ground, ours: int | None, colours: BandColours) -> list[Shape]:
    """Return a stepped shape for each stretch of alike columns."""
    columns = ground.columns
    shapes: list[Shape] = []
    start = columns.first
    while start <= columns.last:
        fill = column_paint(columns, start, None, colours)
        end = start
        while end < columns.last and column_paint(columns, end + 1, None, colours) == fill:
            end += 1
        steps = _steps(ground, columns.ordinary, start, end)
        points = ((ground.edge(start), ground.base), *steps, (ground.edge(end + 1), ground.base))
        shapes.append(Polygon(points, fill, colours.strong, 0.05 * ground.size))
        start = end + 1
    if ours is not None:
        # A narrow column would vanish: ours keeps a width that can be seen.
        half = max(ground.slot, 0.12 * ground.size) / 2
        x, y = ground.middle(ours), ground.y(columns.ordinary[ours - columns.first])
        shapes.append(Rect(Box(x - half, y, x + half, ground.base), colours.strong))
    over = _steps(ground, columns.average, columns.first, columns.last)
    return [*shapes, Polyline(over, DIM, 0.08 * ground.size)]


def _steps(
    ground: Ground, chances: tuple[float, ...], start: int, end: int
) -> tuple[tuple[float, float], ...]:
    points: list[tuple[float, float]] = []
    for number in range(start, end + 1):
        y = ground.y(chances[number - ground.columns.first])
        points += [(ground.edge(number), y), (ground.edge(number + 1), y)]
    return tuple(points)


def base_line(ground: Ground) -> Line:
    """Return the line the columns stand on."""
    return Line(ground.left, ground.base, ground.right, ground.base, RULE, 0.08 * ground.size)


def end_bar(x: float, top: float, base: float, size: float, outward: int) -> Polygon:
    """Return a solid bar with a foot at its head that points out of the range.

    Parameters
    ----------
    x : float
        The edge of the range.
    top, base : float
        Its two ends.
    size : float
        Type size.
    outward : int
        1 where what lies beyond is to the right, else -1.
    """
    thick, foot = BAR * size, _FOOT * size
    inner, outer = x, x + outward * thick
    points = (
        (inner, base),
        (inner, top),
        (outer + outward * foot, top),
        (outer + outward * foot, top + thick),
        (outer, top + thick),
        (outer, base),
    )
    return Polygon(points, DIM)
