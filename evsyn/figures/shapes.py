"""What a figure is made of, as numbers: groups of shapes on pages, in drawing order.

Lengths are in the layout's unit (points, or pixels on the web), from the top left corner, y
downwards. Any pen can draw them: a raster, a vector file, or the native shapes of a slide.
"""

from dataclasses import dataclass
from typing import Literal, TypeAlias

#: Height of the tallest letters and depth of the lowest, in units of the type size.
ASCENT, DESCENT = 0.93, 0.24

Anchor: TypeAlias = Literal["start", "middle", "end"]


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle by its edges."""

    left: float
    top: float
    right: float
    bottom: float

    def overlaps(self, other: "Box", slack: float = 0.01) -> bool:
        """Whether two boxes share more than ``slack`` in both directions."""
        across = min(self.right, other.right) - max(self.left, other.left)
        down = min(self.bottom, other.bottom) - max(self.top, other.top)
        return across > slack and down > slack

    def inside(self, other: "Box", slack: float = 0.01) -> bool:
        """Whether this box lies within the other."""
        return (
            self.left >= other.left - slack
            and self.top >= other.top - slack
            and self.right <= other.right + slack
            and self.bottom <= other.bottom + slack
        )


@dataclass(frozen=True, slots=True)
class Text:
    """Words on one line; ``y`` is the baseline, ``width`` the measured length.

    Below an opacity of 1 what lies under the words shows through.
    """

    x: float
    y: float
    words: str
    size: float
    width: float
    colour: str
    anchor: Anchor = "start"
    bold: bool = False
    rotation: float = 0.0
    opacity: float = 1.0

    @property
    def box(self) -> Box:
        """The room the words take, unrotated."""
        left = self.x - {"start": 0.0, "middle": 0.5, "end": 1.0}[self.anchor] * self.width
        top, bottom = self.y - ASCENT * self.size, self.y + DESCENT * self.size
        return Box(left, top, left + self.width, bottom)


@dataclass(frozen=True, slots=True)
class Line:
    """A straight stroke."""

    x1: float
    y1: float
    x2: float
    y2: float
    colour: str
    thickness: float


@dataclass(frozen=True, slots=True)
class Polyline:
    """Straight strokes from point to point, open at both ends."""

    points: tuple[tuple[float, float], ...]
    colour: str
    thickness: float
    dashed: bool = False


@dataclass(frozen=True, slots=True)
class Circle:
    """A filled circle."""

    x: float
    y: float
    radius: float
    fill: str


@dataclass(frozen=True, slots=True)
class Polygon:
    """A closed shape; without ``fill`` it is open, without ``stroke`` it has no edge."""

    points: tuple[tuple[float, float], ...]
    fill: str | None = None
    stroke: str | None = None
    thickness: float = 0.0
    dashed: bool = False


@dataclass(frozen=True, slots=True)
class Rect:
    """An upright rectangle; without fill and stroke it only marks a place."""

    box: Box
    fill: str | None = None
    stroke: str | None = None
    thickness: float = 0.0
    dashed: bool = False


Shape: TypeAlias = Text | Line | Polyline | Circle | Polygon | Rect

Role: TypeAlias = Literal[
    "watermark", "invented", "audience", "title", "heading", "axis", "wash", "band", "study",
    "summary", "unit", "sentence", "legend", "caption", "status", "chances", "limits", "key",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class Group:
    """Shapes that belong together.

    Parameters
    ----------
    role : str
        What the group is for.
    shapes : tuple
        Its shapes, in drawing order.
    id : str
        Where the row came from, as a name unique in the figure; empty where it has no source.
    title : str
        The row in words, with file, line and place; empty where it has no source.
    """

    role: Role
    shapes: tuple[Shape, ...]
    id: str = ""
    title: str = ""

    @property
    def texts(self) -> tuple[Text, ...]:
        """The words of the group."""
        return tuple(shape for shape in self.shapes if isinstance(shape, Text))


@dataclass(frozen=True, slots=True)
class Page:
    """One sheet, slide or screen."""

    width: float
    height: float
    groups: tuple[Group, ...]

    def of(self, role: Role) -> tuple[Group, ...]:
        """Return the groups of one role."""
        return tuple(group for group in self.groups if group.role == role)


@dataclass(frozen=True, slots=True)
class FigureLayout:
    """A laid-out figure.

    Parameters
    ----------
    title : str
        The figure's title.
    description : str
        The figure in words, for those who cannot see it.
    unit : str
        ``pt`` for paper and slides, ``px`` for the web.
    pages : tuple of Page
        At least one.
    """

    title: str
    description: str
    unit: Literal["pt", "px"]
    pages: tuple[Page, ...]
