"""How much room a slide leaves, and what fits it."""

import re
from dataclasses import dataclass, replace

from evsyn.figures.formats import PageFormat
from evsyn.figures.measure import ELLIPSIS, one_line, shortened, wrapped
from evsyn.figures.shapes import Box

#: Every slide is laid out as if it were this high; type sizes are points at this height.
HEIGHT = 540.0
#: Type is never smaller than this.
LEAST = 14.0
#: Most lines of text or rows of a list on one slide.
MOST_ROWS = 20
#: From one line to the next, in units of the type size; more than any usual typeface needs.
LINE = 1.25
#: What presentation programs leave free inside the box of a title.
TITLE_INSET = (7.2, 3.6)
_TITLE_STEP = 2.0
#: Type sizes of figures, largest first, where so many times the size fit side by side.
_FIGURE_SIZES, _ABREAST = (24, 22, 20, 18, 17, 16, 15, LEAST), 40
#: Free room between a title and words under it.
_ABOVE_WORDS = 8.0
#: A P and its number, which no line break may part; and what stands for their blank in measuring.
_P, _BLANK, _WIDE = re.compile(r"\bP (?=\(?\d|below )"), "\u00a0", "_"
#: A figure with more height than this would hold more rows than can be read.
_TALLEST = 400.0


@dataclass(frozen=True, slots=True)
class Cover:
    """Where title and words of the first slide stand, and the type size of its title."""

    title: Box
    words: Box
    title_size: float


@dataclass(frozen=True, slots=True)
class Room:
    """Where title, body and foot of every slide stand, in points at the height above.

    Parameters
    ----------
    width : float
        Width of the slide.
    title, body, foot : Box
        The three places; no two meet.
    title_size : float
        Type size that the layout gives its title.
    section : Box or None
        Where the part of the talk is named; ``None`` where the layout has no place for it.
    cover : Cover or None
        The first slide; ``None`` where no layout is made for it.
    """

    width: float
    title: Box
    body: Box
    foot: Box
    title_size: float
    section: Box | None = None
    cover: Cover | None = None

    @property
    def words(self) -> Box:
        """Where words stand in the body: a little lower than a figure, which brings its own air."""
        return replace(self.body, top=self.body.top + _ABOVE_WORDS)

    @property
    def body_width(self) -> float:
        """Width of the body."""
        return self.body.right - self.body.left

    @property
    def body_height(self) -> float:
        """Height of the body."""
        return self.body.bottom - self.body.top

    def figure_format(self, *, all_rows: bool = False) -> PageFormat:
        """Return the sheet a figure is laid out for.

        Parameters
        ----------
        all_rows : bool
            Whether every row is drawn, on as many slides as that needs; if not, too many rows
            leave the summaries alone.
        """
        height = min(self.body_height, _TALLEST) if all_rows else self.body_height
        # Larger type would leave the axis of a narrow slide no room.
        most = max(LEAST, self.body_width / _ABREAST)
        return PageFormat(
            self.body_width,
            height,
            0,
            tuple(size for size in _FIGURE_SIZES if size <= most),
            paged_size=LEAST,
            max_rows=None if all_rows else MOST_ROWS,
            title_scale=1.3,
            slack=0.4,
            ticks_below=False,
        )


def inner(place: Box) -> Box:
    """Return the room for words inside a placeholder."""
    across, down = TITLE_INSET
    return Box(place.left + across, place.top + down, place.right - across, place.bottom - down)


def fitted_title(place: Box, title_size: float, title: str) -> tuple[str, float]:
    """Return a title with the type size at which it fits its place; only the longest are cut.

    Parameters
    ----------
    place : Box
        Where it stands.
    title_size : float
        The largest type size.
    title : str
        The title.
    """
    free = inner(place)
    width, height = free.right - free.left, free.bottom - free.top
    words, size = _P.sub(f"P{_WIDE}", one_line(title)), max(title_size, LEAST)
    while True:
        lines = wrapped(words, width, size, bold=True)
        most = max(1, int(height / (LINE * size)))
        if len(lines) <= most:
            return _unbroken(words), size
        if size <= LEAST:
            kept = " ".join(lines[: most - 1])
            last = shortened(lines[most - 1] + ELLIPSIS, width, size, bold=True)
            return _unbroken(f"{kept} {last}".strip()), size
        size = max(LEAST, size - _TITLE_STEP)


def _unbroken(words: str) -> str:
    """Put a blank that no program breaks a line at between each P and its number."""
    return re.sub(rf"\bP{_WIDE}(?=\(?\d|below )", f"P{_BLANK}", words)
