"""From what a ladder says to where everything stands."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property, partial

from evsyn.figures.flow import Block
from evsyn.figures.forest.marks import interval, summary_bar
from evsyn.figures.formats import PageFormat
from evsyn.figures.invented import watermark
from evsyn.figures.ladder.content import LadderContent, Rung
from evsyn.figures.ladder.sheet import Sheet
from evsyn.figures.measure import typeset
from evsyn.figures.pages import fits, one_page, several_pages, with_own_ids
from evsyn.figures.palette import DIM, GRID, INK, BandColours, band_colours
from evsyn.figures.running_text import page_head, page_status, running_lines, spoken_head
from evsyn.figures.shapes import Box, Circle, FigureLayout, Group, Line, Rect, Shape
from evsyn.figures.ticks import tick_words
from evsyn.wording.ask_ladder import axis_sentence

#: The most a rung may grow, in units of the type size, and the radius of its spot.
_MOST_GAIN, _SPOT = 1.4, 0.28
_HUE = 0


def ladder_layout(content: LadderContent, fmt: PageFormat) -> FigureLayout:
    """Lay out pooled answers one under another.

    Parameters
    ----------
    content : LadderContent
        What is shown.
    fmt : PageFormat
        ``A4``, ``SLIDE``, or ``web(width)``.

    Raises
    ------
    ValueError
        If the words leave no room for the rungs.
    """
    for size in fmt.sizes:
        figure = _Ladder(Sheet.across(content, fmt, size))
        if fits(figure):
            pages = one_page(figure)
            break
    else:
        pages = several_pages(_Ladder(Sheet.across(content, fmt, fmt.paged_size)))
    return FigureLayout(content.title, _description(content), fmt.unit, with_own_ids(pages))


@dataclass(frozen=True)
class _Ladder:
    """A ladder at one type size."""

    paper: Sheet

    @cached_property
    def blocks(self) -> list[Block]:
        return [
            Block(
                self.paper.height(rung),
                partial(self._rung, rung),
                band=0,
                plotted=True,
                stretches=True,
            )
            for rung in self.paper.content.all
        ]

    @property
    def most_gain(self) -> float:
        return _MOST_GAIN * self.paper.size

    def head(self) -> tuple[list[Group], float]:
        sheet, content = self.paper, self.paper.content
        groups, y = page_head(sheet, content.banner, content.title, content.subtitle)
        base = y + 0.95 * sheet.size
        label, note, value = content.headings
        shapes: list[Shape] = [typeset(sheet.label, base, label, sheet.size, DIM)]
        if not sheet.fmt.stacked:
            shapes.append(typeset(sheet.note, base, note, sheet.size, DIM))
        shapes.append(typeset(sheet.value, base, value, sheet.size, DIM, anchor="end"))
        if sheet.fmt.stacked:
            base += sheet.line_height
        shapes += [
            typeset(sheet.axis.x(t / 100), base, tick_words(t), sheet.size, DIM, anchor="middle")
            for t in sheet.axis.scale.ticks
        ]
        return [*groups, Group("heading", tuple(shapes))], base + 0.45 * sheet.size

    def body(
        self, blocks: Sequence[Block], heights: Sequence[float], top: float
    ) -> tuple[list[Group], list[Group], float]:
        before, y = [], top
        for block, height in zip(blocks, heights, strict=True):
            group = block.draw(y, height)
            if group is not None:
                before.append(group)
            y += height
        return [self._ground(top, y)], before, y

    def foot(self, _blocks: Sequence[Block], top: float) -> tuple[list[Group], float]:
        words = self.paper.content.caption + axis_sentence(self.paper.axis.scale.start)
        caption, y = running_lines(self.paper, "caption", words, top + 0.4 * self.paper.size)
        return [caption], y

    def status(self, top: float, page: int, pages: int) -> tuple[Group, float]:
        content = self.paper.content
        return page_status(self.paper, content.status_line, content.words.page, top, page, pages)

    def over(self, top: float, bottom: float) -> list[Group]:
        content = self.paper.content
        return watermark(self.paper, content.invented, content.words.watermark, top, bottom)

    def continued(self, band: int) -> Block:
        """Return nothing: the heading names the columns on every page."""
        return Block(0.0, band=band)

    def _ground(self, top: float, bottom: float) -> Group:
        """Return the grid, and the interval of the answer as it stands behind all rungs."""
        axis, base, size = self.paper.axis, self.paper.content.base, self.paper.size
        shapes: list[Shape] = []
        if base.estimate is not None:
            box = Box(axis.x(base.low), top, axis.x(base.high), bottom)
            shapes.append(Rect(box, self._colours.wash))
        shapes += [
            Line(axis.x(t / 100), top, axis.x(t / 100), bottom, GRID, 0.06 * size)
            for t in axis.scale.ticks
        ]
        if base.estimate is not None:
            x = axis.x(base.estimate)
            shapes.append(Line(x, top, x, bottom, self._colours.pale, 0.14 * size))
        return Group("axis", tuple(shapes))

    @property
    def _colours(self) -> BandColours:
        return band_colours(_HUE)

    def _rung(self, rung: Rung, top: float, height: float) -> Group:
        sheet, size, is_base = self.paper, self.paper.size, rung is self.paper.content.base
        stacked, tall = sheet.fmt.stacked, sheet.words_height(rung)
        y = top + height - 0.55 * size if stacked else top + height / 2
        first = top + (0.0 if stacked else (height - tall) / 2) + sheet.line_height / 2
        shapes: list[Shape] = [
            typeset(
                sheet.label,
                sheet.baseline(first + place * sheet.line_height),
                line,
                size,
                INK,
                bold=is_base,
            )
            for place, line in enumerate(sheet.label_lines(rung))
        ]
        words = sheet.baseline(first if stacked else top + height / 2)
        if not stacked:
            shapes.append(typeset(sheet.note, words, rung.note, size, DIM))
        value = typeset(sheet.value, words, rung.value, size, INK, anchor="end", bold=is_base)
        return Group("study", (*shapes, *self._marks(rung, y, is_base=is_base), value))

    def _marks(self, rung: Rung, y: float, *, is_base: bool) -> tuple[Shape, ...]:
        if rung.estimate is None:
            return ()
        axis, size, colours = self.paper.axis, self.paper.size, self._colours
        if is_base:
            places = (axis.x(rung.low), axis.x(rung.estimate), axis.x(rung.high))
            return summary_bar(places, y, size, colours, is_open=True)
        stroke = interval(axis, rung.low, rung.high, y, size, colours.strong, 0.11 * size)
        return (*stroke, Circle(axis.x(rung.estimate), y, _SPOT * size, colours.strong))


def _description(content: LadderContent) -> str:
    rungs = " ".join(f"{rung.label}: {rung.note}, {rung.value}." for rung in content.all)
    title = f"{content.title}. {content.subtitle.removesuffix('.')}."
    return f"{spoken_head(content.banner, '')}{title} {rungs} {content.status_line}"
