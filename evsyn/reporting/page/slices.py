"""A tall drawing cut between its rows, so that paper can break it from page to page."""

from dataclasses import replace

from evsyn.figures.shapes import Circle, Group, Line, Page, Polygon, Polyline, Rect, Shape, Text

#: Height of a sheet of A4 less its margins, where a wide drawing fills it from edge to edge.
SHEET = 1_040.0
#: What may head a slice: the ground of a band first, else any row.
_HEADS = ("wash", "study", "summary", "unit")


def cuts(page: Page, most: float = SHEET) -> tuple[float, ...]:
    """Return where a page is cut, from its top to its foot: before a band where that can be.

    Parameters
    ----------
    page : Page
        A laid-out page.
    most : float
        Greatest height of a slice, in the layout's unit.

    Returns
    -------
    tuple of float
        Heights, the first 0 and the last that of the page.
    """
    found = [0.0]
    while page.height - found[-1] > most:
        last = found[-1]
        heads = [
            (role == "wash", top)
            for role, top in _tops(page)
            if last + most / 3 < top <= last + most
        ]
        if not heads:
            break
        found.append(max(heads)[1])
    return (*found, page.height)


def within(page: Page, top: float, bottom: float) -> tuple[Group, ...]:
    """Return what lies between two heights, in part or in whole, in its groups."""
    kept = []
    for group in page.groups:
        shapes = [shape for shape in group.shapes if _lies(shape, top, bottom)]
        if shapes:
            kept.append(replace(group, shapes=tuple(shapes)))
    return tuple(kept)


def _lies(shape: Shape, top: float, bottom: float) -> bool:
    low, high = _extent(shape)
    return low < bottom and high > top


def _tops(page: Page) -> list[tuple[str, float]]:
    return [
        (group.role, min(_extent(shape)[0] for shape in group.shapes))
        for group in page.groups
        if group.role in _HEADS and group.shapes
    ]


def _extent(shape: Shape) -> tuple[float, float]:
    match shape:
        case Text():
            if shape.rotation:
                return shape.y - shape.width, shape.y + shape.width
            return shape.box.top, shape.box.bottom
        case Line():
            return min(shape.y1, shape.y2), max(shape.y1, shape.y2) + 0.01
        case Circle():
            return shape.y - shape.radius, shape.y + shape.radius
        case Rect():
            return shape.box.top, shape.box.bottom
        case Polygon() | Polyline():
            heights = [y for _, y in shape.points]
            return min(heights), max(heights) + 0.01
