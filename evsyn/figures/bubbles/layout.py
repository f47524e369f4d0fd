"""From what a drawing of a regression says to where everything stands."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from evsyn.figures.bubbles.content import Bubble, BubbleContent
from evsyn.figures.bubbles.sheet import LARGEST, SMALLEST, Plot, Sheet
from evsyn.figures.flow import Block
from evsyn.figures.formats import PageFormat
from evsyn.figures.invented import watermark
from evsyn.figures.label_places import Labelled, label_places
from evsyn.figures.measure import text_width, typeset
from evsyn.figures.pages import fits, one_page, with_own_ids
from evsyn.figures.palette import BANDS, DIM, INK, PAPER, RULE
from evsyn.figures.running_text import page_head, page_status, running_lines, spoken_head
from evsyn.figures.shapes import (
    ASCENT,
    DESCENT,
    Box,
    Circle,
    FigureLayout,
    Group,
    Line,
    Polygon,
    Polyline,
    Rect,
    Shape,
)
from evsyn.figures.sources import places, source_id
from evsyn.figures.ticks import tick_words

#: The plot is no higher than this against its width.
_TALLEST = 1.1
_COLOURS = BANDS[0]


def bubble_layout(content: BubbleContent, fmt: PageFormat) -> FigureLayout:
    """Lay out studies over one number, with the line of the model that is read.

    Parameters
    ----------
    content : BubbleContent
        What is shown.
    fmt : PageFormat
        ``A4``, ``SLIDE``, or ``web(width)``.

    Raises
    ------
    ValueError
        If the words leave no room for the plot.
    """
    figures = [_Bubbles(Sheet.across(content, fmt, size)) for size in fmt.sizes]
    figure = next((one for one in figures if fits(one)), None)
    if figure is None:
        raise ValueError("the words leave no room for the plot")
    pages = with_own_ids(one_page(figure))
    return FigureLayout(content.title, _description(content), fmt.unit, pages)


@dataclass(frozen=True)
class _Bubbles:
    """A drawing at one type size."""

    paper: Sheet

    @cached_property
    def blocks(self) -> list[Block]:
        return [Block(self.paper.height, band=0, stretches=True)]

    @property
    def most_gain(self) -> float:
        sheet = self.paper
        tallest = _TALLEST * (sheet.right - sheet.plot_left) + sheet.above + sheet.below
        return max(0.0, tallest - sheet.height)

    def head(self) -> tuple[list[Group], float]:
        content = self.paper.content
        return page_head(self.paper, content.banner, content.title, content.subtitle)

    def body(
        self, _blocks: Sequence[Block], heights: Sequence[float], top: float
    ) -> tuple[list[Group], list[Group], float]:
        plot = self.paper.plot(top, heights[0])
        behind = [_ground(self.paper, plot), _axes(self.paper, plot, top)]
        return behind, _studies(self.paper, plot), top + heights[0]

    def foot(self, _blocks: Sequence[Block], top: float) -> tuple[list[Group], float]:
        caption, y = running_lines(
            self.paper, "caption", self.paper.content.caption, top + 0.3 * self.paper.size
        )
        return [caption], y

    def status(self, top: float, page: int, pages: int) -> tuple[Group, float]:
        content = self.paper.content
        return page_status(self.paper, content.status_line, content.words.page, top, page, pages)

    def over(self, top: float, bottom: float) -> list[Group]:
        content = self.paper.content
        return watermark(self.paper, content.invented, content.words.watermark, top, bottom)

    def continued(self, band: int) -> Block:
        """Return nothing: there is one page."""
        return Block(0.0, band=band)


def _ground(sheet: Sheet, plot: Plot) -> Group:
    """Return the grid, and over it the limits of the line and the line."""
    size, line = sheet.size, sheet.content.line
    shapes: list[Shape] = [
        Rect(Box(plot.left, plot.top, plot.right, plot.bottom), _COLOURS.wash),
        *(
            Line(plot.left, plot.y(t / 100), plot.right, plot.y(t / 100), PAPER, 0.1 * size)
            for t in sheet.rates.ticks
        ),
    ]
    upper = [(plot.x(one.place), plot.y(one.high)) for one in line]
    lower = [(plot.x(one.place), plot.y(one.low)) for one in line]
    shapes.append(Polygon((*upper, *reversed(lower)), _COLOURS.pale))
    middle = tuple((plot.x(one.place), plot.y(one.rate)) for one in line)
    shapes.append(Polyline(middle, INK, 0.16 * size))
    return Group("limits", tuple(shapes))


def _axes(sheet: Sheet, plot: Plot, top: float) -> Group:
    size, shapes, y = sheet.size, list[Shape](), top
    for words in sheet.up_lines:
        y += sheet.line_height
        base = sheet.baseline(y - sheet.line_height / 2)
        shapes.append(typeset(sheet.left, base, words, size, INK))
    for tick in sheet.rates.ticks:
        base = sheet.baseline(plot.y(tick / 100))
        words = tick_words(tick)
        shapes.append(typeset(plot.left - 0.4 * size, base, words, size, DIM, anchor="end"))
    rule = (RULE, 0.08 * size)
    shapes.append(Line(plot.left, plot.top, plot.left, plot.bottom, *rule))
    shapes.append(Line(plot.left, plot.bottom, plot.right, plot.bottom, *rule))
    y = plot.bottom + 0.2 * size + sheet.line_height / 2
    last = -math.inf
    for place, words in sheet.content.ticks:
        x, half = plot.x(place), text_width(words, size) / 2
        if not plot.left <= x <= plot.right or x + half > sheet.right:
            continue
        shapes.append(Line(x, plot.bottom, x, plot.bottom + 0.25 * size, *rule))
        if x - half < last + 0.5 * size:
            continue
        shapes.append(typeset(x, sheet.baseline(y), words, size, DIM, anchor="middle"))
        last = x + half
    across, centre = sheet.content.across, (plot.left + plot.right) / 2
    base = sheet.baseline(y + sheet.line_height)
    shapes.append(typeset(centre, base, across, size, INK, anchor="middle"))
    return Group("axis", tuple(shapes))


def _studies(sheet: Sheet, plot: Plot) -> list[Group]:
    """Return the bubbles, large ones first so that none hides a small one, then their names.

    A name stands where it can be near its bubble, or not at all.
    """
    size = sheet.size
    bubbles = sorted(sheet.content.bubbles, key=lambda one: -one.weight)
    most = bubbles[0].weight
    circles = [_circle(plot, one, most, size) for one in bubbles]
    groups = [
        Group(
            "study",
            (Circle(spot.x, spot.y, spot.radius + 0.07 * size, PAPER), spot),
            source_id(one.sources),
            f"{one.said}, {places(one.sources)}" if one.sources else one.said,
        )
        for one, spot in zip(bubbles, circles, strict=True)
    ]
    marks = [Box(c.x - c.radius, c.y - c.radius, c.x + c.radius, c.y + c.radius) for c in circles]
    found = label_places(
        [
            Labelled(mark, text_width(one.label, size) + 0.1 * size, (ASCENT + DESCENT) * size)
            for one, mark in zip(bubbles, marks, strict=True)
        ],
        Box(plot.left, plot.top, plot.right, plot.bottom),
        marks=marks,
        lines=[(plot.x(one.place), plot.y(one.rate)) for one in sheet.content.line],
        anywhere=False,
    )
    names = tuple(
        typeset(place.box.left, place.box.top + ASCENT * size, one.label, size, INK)
        for one, place in zip(bubbles, found, strict=True)
        if place is not None and place.leader is None
    )
    return [*groups, Group("legend", names)]


def _circle(plot: Plot, bubble: Bubble, most: float, size: float) -> Circle:
    radius = size * max(SMALLEST, LARGEST * math.sqrt(bubble.weight / most))
    return Circle(plot.x(bubble.place), plot.y(bubble.rate), radius, _COLOURS.strong)


def _description(content: BubbleContent) -> str:
    title = f"{content.title}. {content.subtitle.removesuffix('.')}."
    studies = " ".join(f"{one.said}." for one in content.bubbles)
    return f"{spoken_head(content.banner, '')}{title} {studies} {content.status_line}"
