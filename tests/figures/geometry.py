"""What every laid-out page must keep: words apart, and everything on the page."""

from itertools import combinations

from evsyn.figures.shapes import Box, Circle, Line, Page, Polygon, Polyline, Rect, Shape, Text


def texts(page: Page) -> list[Text]:
    return [t for group in page.groups if group.role != "watermark" for t in group.texts]


def words_of(page: Page, role: str) -> list[str]:
    return [text.words for group in page.of(role) for text in group.texts]


def corners(shape: Shape) -> list[tuple[float, float]]:
    match shape:
        case Text() | Rect():
            box = shape.box
        case Line():
            return [(shape.x1, shape.y1), (shape.x2, shape.y2)]
        case Circle():
            x, y, r = shape.x, shape.y, shape.radius
            box = Box(x - r, y - r, x + r, y + r)
        case Polygon() | Polyline():
            return list(shape.points)
    return [(box.left, box.top), (box.right, box.bottom)]


def overlapping_words(page: Page) -> list[tuple[str, str]]:
    ordered = sorted(texts(page), key=lambda text: text.box.top)
    return [
        (one.words, other.words)
        for one, other in combinations(ordered, 2)
        if other.box.top < one.box.bottom and one.box.overlaps(other.box)
    ]


def off_the_page(page: Page) -> list[tuple[str, Shape]]:
    return [
        (group.role, shape)
        for group in page.groups
        if group.role != "watermark"
        for shape in group.shapes
        for x, y in corners(shape)
        if not (-0.01 <= x <= page.width + 0.01 and -0.01 <= y <= page.height + 0.01)
    ]
