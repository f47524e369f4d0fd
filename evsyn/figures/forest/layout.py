"""From what a forest plot says to where everything stands."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from evsyn.figures.flow import Block
from evsyn.figures.forest.body import all_blocks, continued_block, placed
from evsyn.figures.forest.content import ForestContent
from evsyn.figures.forest.empty import empty_page
from evsyn.figures.forest.foot import below, status
from evsyn.figures.forest.head import head
from evsyn.figures.forest.sheet import Sheet
from evsyn.figures.formats import PageFormat
from evsyn.figures.invented import watermark
from evsyn.figures.pages import fits, one_page, several_pages, with_own_ids
from evsyn.figures.palette import NEUTRAL, BandColours
from evsyn.figures.running_text import spoken_head
from evsyn.figures.shapes import FigureLayout, Group, Page

#: The most a row may grow, in units of the type size.
_MOST_GAIN = 0.9


def forest_layout(content: ForestContent, fmt: PageFormat) -> FigureLayout:
    """Lay out a forest plot.

    The largest type size at which one page holds everything, with names of ordinary length uncut,
    is taken. Where even the least size
    does not, a slide shows the summaries alone and says so; other sheets turn pages.

    Parameters
    ----------
    content : ForestContent
        What is shown.
    fmt : PageFormat
        ``A4``, ``SLIDE``, or ``web(width)``.

    Raises
    ------
    ValueError
        If title, caption and status line leave no room for the bands.
    """
    description = _description(content)
    if content.is_empty:
        return FigureLayout(content.title, description, fmt.unit, (empty_page(content, fmt),))
    if fmt.is_slide:
        content = replace(
            content,
            caption=content.short_caption or content.caption,
            mark=content.short_mark or content.mark,
        )
    rows = sum(len(band.lines) for band in content.bands)
    pages = _one_page(content, fmt)
    if pages is None and fmt.is_slide and rows:
        content = _summaries_only(content, rows)
        pages = _one_page(content, fmt)
    if pages is None:
        pages = several_pages(_Forest(Sheet.across(content, fmt, fmt.paged_size)))
    return FigureLayout(content.title, description, fmt.unit, with_own_ids(pages))


def _one_page(content: ForestContent, fmt: PageFormat) -> list[Page] | None:
    if fmt.max_rows is not None and _rows(content) > fmt.max_rows:
        return None
    sheets = [Sheet.across(content, fmt, size) for size in fmt.sizes]
    # Names are cut only where no smaller type, down to the least allowed, would spare them.
    for sheet in sorted(sheets, key=lambda sheet: sheet.cramped):
        figure = _Forest(sheet)
        if fits(figure):
            return one_page(figure)
    return None


def _rows(content: ForestContent) -> int:
    return sum(
        len(band.lines) + len(band.summaries) + (band.unit is not None) for band in content.bands
    )


def _explained(sheet: Sheet, blocks: Sequence[Block]) -> tuple[frozenset[str], BandColours]:
    """Return the marks a page's legend explains, and its colours: a band's own if it is alone."""
    marks = frozenset[str]().union(*(block.marks for block in blocks))
    bands = {block.band for block in blocks if block.band is not None}
    return marks, sheet.colours(bands.pop()) if len(bands) == 1 else NEUTRAL


@dataclass(frozen=True)
class _Forest:
    """A forest plot at one type size."""

    paper: Sheet

    @cached_property
    def blocks(self) -> list[Block]:
        return all_blocks(self.paper)

    @property
    def most_gain(self) -> float:
        return _MOST_GAIN * self.paper.size

    def head(self) -> tuple[list[Group], float]:
        return head(self.paper)

    def body(
        self, blocks: Sequence[Block], heights: Sequence[float], top: float
    ) -> tuple[list[Group], list[Group], float]:
        return placed(self.paper, blocks, heights, top)

    def foot(self, blocks: Sequence[Block], top: float) -> tuple[list[Group], float]:
        return below(self.paper, top, *_explained(self.paper, blocks))

    def status(self, top: float, page: int, pages: int) -> tuple[Group, float]:
        return status(self.paper, top, page, pages)

    def over(self, top: float, bottom: float) -> list[Group]:
        content = self.paper.content
        return watermark(self.paper, content.invented, content.words.watermark, top, bottom)

    def continued(self, band: int) -> Block:
        return continued_block(self.paper, band)


def _summaries_only(content: ForestContent, rows: int) -> ForestContent:
    said = content.words.summaries_only.format(rows=f"{rows:,}")
    return replace(
        content,
        bands=tuple(replace(band, lines=()) for band in content.bands),
        caption=f"{said} {content.caption}".strip(),
        mark_key="",
    )


def _description(content: ForestContent) -> str:
    bands = " ".join(f"{band.title}: {band.sentence}" for band in content.bands)
    title = f"{content.title}. {content.subtitle.removesuffix('.')}."
    said_first = spoken_head(content.banner, content.mark)
    return f"{said_first}{title} {bands} {content.status_line}"
