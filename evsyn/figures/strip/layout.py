"""From what count strips say to where everything stands."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from evsyn.figures.flow import Block
from evsyn.figures.formats import PageFormat
from evsyn.figures.invented import watermark
from evsyn.figures.measure import typeset, wrapped
from evsyn.figures.pages import fits, one_page, several_pages, with_own_ids
from evsyn.figures.palette import DIM, NEUTRAL, BandColours, band_colours
from evsyn.figures.running_text import page_head, page_status, running_lines, spoken_head
from evsyn.figures.shapes import FigureLayout, Group, Shape
from evsyn.figures.strip.content import StripContent
from evsyn.figures.strip.legend import strip_legend
from evsyn.figures.strip.rows import shade, strip_blocks, strip_words
from evsyn.figures.strip.sheet import Sheet

#: The most a strip may grow, in units of the type size.
_MOST_GAIN = 9.0


def strip_layout(content: StripContent, fmt: PageFormat) -> FigureLayout:
    """Lay out count strips, one under another.

    The largest type size at which one page holds all is taken; beyond the least, pages turn
    between strips.

    Parameters
    ----------
    content : StripContent
        What is shown.
    fmt : PageFormat
        ``A4``, ``SLIDE``, or ``web(width)``.

    Raises
    ------
    ValueError
        If there is no strip, or the words leave no room for one.
    """
    if not content.strips:
        raise ValueError("a page of count strips needs at least one")
    description = _description(content)
    if fmt.is_slide:
        content = replace(
            content,
            caption=content.short_caption or content.caption,
            mark=content.short_mark or content.mark,
        )
    for size in fmt.sizes:
        figure = _Strips(Sheet.across(content, fmt, size))
        if fits(figure):
            pages = one_page(figure)
            break
    else:
        pages = several_pages(_Strips(Sheet.across(content, fmt, fmt.paged_size)))
    return FigureLayout(content.title, description, fmt.unit, with_own_ids(pages))


@dataclass(frozen=True)
class _Strips:
    """Count strips at one type size."""

    paper: Sheet

    @cached_property
    def blocks(self) -> list[Block]:
        return strip_blocks(self.paper)

    @property
    def most_gain(self) -> float:
        return _MOST_GAIN * self.paper.size

    def head(self) -> tuple[list[Group], float]:
        sheet, content = self.paper, self.paper.content
        groups, y = page_head(sheet, content.banner, content.title, content.subtitle, content.mark)
        if all(strip.columns is None for strip in content.strips):
            return groups, y
        shapes: list[Shape] = []
        if not sheet.fmt.stacked:
            first = sheet.baseline(y + sheet.line_height / 2)
            shapes.append(typeset(sheet.label, first, content.words.counts, sheet.size, DIM))
        for line in wrapped(content.words.columns, sheet.plot_right - sheet.plot_left, sheet.size):
            y += sheet.line_height
            base = sheet.baseline(y - sheet.line_height / 2)
            shapes.append(typeset(sheet.plot_left, base, line, sheet.size, DIM))
        return [*groups, Group("heading", tuple(shapes))], y + 0.2 * sheet.size

    def body(
        self, blocks: Sequence[Block], heights: Sequence[float], top: float
    ) -> tuple[list[Group], list[Group], float]:
        behind, before, y = [], [], top
        for block, height in zip(blocks, heights, strict=True):
            group = block.draw(y, height)
            if group is not None and block.band is not None:
                hue = self.paper.content.strips[block.band].hue
                behind.append(shade(self.paper, hue, y, y + height))
                before.append(group)
            y += height
        return behind, before, y

    def foot(self, blocks: Sequence[Block], top: float) -> tuple[list[Group], float]:
        marks = frozenset[str]().union(*(block.marks for block in blocks))
        y = top + 0.3 * self.paper.size
        groups = []
        if marks:
            legend, y = strip_legend(self.paper, y, marks, self._colours(blocks))
            groups.append(legend)
        caption, y = running_lines(
            self.paper, "caption", self.paper.content.caption, y + 0.2 * self.paper.size
        )
        return [*groups, caption], y

    def status(self, top: float, page: int, pages: int) -> tuple[Group, float]:
        content = self.paper.content
        words = content.words.page
        return page_status(self.paper, content.status_line, words, top, page, pages)

    def over(self, top: float, bottom: float) -> list[Group]:
        content = self.paper.content
        return watermark(self.paper, content.invented, content.words.watermark, top, bottom)

    def continued(self, band: int) -> Block:
        """Return nothing: no page turns within a strip."""
        return Block(0.0, band=band)

    def _colours(self, blocks: Sequence[Block]) -> BandColours:
        strips = self.paper.content.strips
        hues = {strips[block.band].hue for block in blocks if block.band is not None}
        return band_colours(hues.pop()) if len(hues) == 1 else NEUTRAL


def _description(content: StripContent) -> str:
    strips = " ".join(strip_words(strip) for strip in content.strips)
    title = f"{content.title}. {content.subtitle.removesuffix('.')}."
    head = spoken_head(content.banner, content.mark)
    return f"{head}{title} {strips} {content.status_line}"
