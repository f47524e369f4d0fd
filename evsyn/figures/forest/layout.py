"""From what a forest plot says to where everything stands."""

from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from evsyn.figures.forest.body import all_blocks, continued_block, placed
from evsyn.figures.forest.content import ForestContent
from evsyn.figures.forest.empty import empty_page
from evsyn.figures.forest.flow import Block, stretched, total_height, turned
from evsyn.figures.forest.foot import below, status
from evsyn.figures.forest.head import head, watermark
from evsyn.figures.forest.sheet import Sheet
from evsyn.figures.formats import PageFormat
from evsyn.figures.palette import NEUTRAL, BandColours, band_colours
from evsyn.figures.shapes import FigureLayout, Group, Page

#: Free room between bands and foot, and the most a row may grow, in units of the type size.
_ABOVE_STATUS, _MOST_GAIN = 0.5, 0.9
#: A page must have room for this many lines of bands.
_LEAST_LINES = 6
#: How finely the height of even pages is sought.
_EVEN_STEPS = 24
#: Stands for the page number while the number of pages is not known.
_MANY = 999


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
        content = replace(content, caption=content.short_caption or content.caption)
    rows = sum(len(band.lines) for band in content.bands)
    pages = _one_page(content, fmt)
    if pages is None and fmt.is_slide and rows:
        content = _summaries_only(content, rows)
        pages = _one_page(content, fmt)
    if pages is None:
        pages = _several_pages(content, fmt)
    return FigureLayout(content.title, description, fmt.unit, _with_own_ids(pages))


def _one_page(content: ForestContent, fmt: PageFormat) -> list[Page] | None:
    if fmt.max_rows is not None and _rows(content) > fmt.max_rows:
        return None
    sheets = [Sheet.across(content, fmt, size) for size in fmt.sizes]
    # Names are cut only where no smaller type, down to the least allowed, would spare them.
    for sheet in sorted(sheets, key=lambda sheet: sheet.cramped):
        blocks = all_blocks(sheet)
        if fmt.height is None or total_height(blocks) <= _room(sheet, fmt.height, 1, blocks):
            return [_page(sheet, blocks, 1, 1)]
    return None


def _several_pages(content: ForestContent, fmt: PageFormat) -> list[Page]:
    sheet = Sheet.across(content, fmt, fmt.paged_size)
    blocks, title = all_blocks(sheet), partial(continued_block, sheet)
    room = _room(sheet, fmt.height or 0.0, _MANY, blocks)
    if room < _LEAST_LINES * sheet.line_height:
        raise ValueError("title, caption and status line leave no room for the rows on this sheet")
    runs = turned(blocks, room, title)
    if fmt.is_slide:
        # What is free on a slide is lost: the next band comes as early as it can.
        return [_page(sheet, run, i + 1, len(runs)) for i, run in enumerate(runs)]
    # Even pages read better than full ones and a remnant: the least room that needs no more.
    least = total_height(blocks) / len(runs)
    for step in range(_EVEN_STEPS):
        even = turned(blocks, least + (room - least) * step / _EVEN_STEPS, title)
        if len(even) == len(runs):
            runs = even
            break
    return [_page(sheet, run, i + 1, len(runs)) for i, run in enumerate(runs)]


def _rows(content: ForestContent) -> int:
    return sum(
        len(band.lines) + len(band.summaries) + (band.unit is not None) for band in content.bands
    )


def _room(sheet: Sheet, height: float, pages: int, blocks: Sequence[Block]) -> float:
    """Return the height left for the bands."""
    above = head(sheet)[1]
    foot = below(sheet, 0, *_explained(blocks))[1] + _above_status(sheet)
    last = status(sheet, 0, pages, pages)[1]
    return height - above - foot - last - _bottom_margin(sheet)


def _explained(blocks: Sequence[Block]) -> tuple[frozenset[str], BandColours]:
    """Return the marks a page's legend explains, and its colours: a band's own if it is alone."""
    marks = frozenset[str]().union(*(block.marks for block in blocks))
    bands = {block.band for block in blocks if block.band is not None}
    return marks, band_colours(bands.pop()) if len(bands) == 1 else NEUTRAL


def _above_status(sheet: Sheet) -> float:
    return _ABOVE_STATUS * sheet.fmt.slack * sheet.size


def _bottom_margin(sheet: Sheet) -> float:
    return 0.5 * sheet.fmt.margin


def _page(sheet: Sheet, blocks: Sequence[Block], page: int, pages: int) -> Page:
    above, top = head(sheet)
    height = sheet.fmt.height
    room = 0.0 if height is None else _room(sheet, height, pages, blocks)
    heights = stretched(blocks, room, _MOST_GAIN * sheet.size)
    behind, before, bottom = placed(sheet, blocks, heights, top)
    foot, y = below(sheet, bottom, *_explained(blocks))
    y += _above_status(sheet)
    if height is not None:
        y = max(y, height - _bottom_margin(sheet) - status(sheet, 0, page, pages)[1])
    last, y = status(sheet, y, page, pages)
    groups: list[Group] = [*behind, *above, *before, *foot, *last, *watermark(sheet, top, bottom)]
    whole = y + _bottom_margin(sheet) if height is None else height
    return Page(sheet.fmt.width, whole, tuple(groups))


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
    banner = f"{content.banner}. " if content.banner else ""
    return f"{banner}{title} {bands} {content.status_line}"


def _with_own_ids(pages: Sequence[Page]) -> tuple[Page, ...]:
    """Number the ids that occur more than once, as for a study in two bands."""
    seen: dict[str, int] = {}

    def own(group: Group) -> Group:
        if not group.id:
            return group
        seen[group.id] = seen.get(group.id, 0) + 1
        return group if seen[group.id] == 1 else replace(group, id=f"{group.id}_{seen[group.id]}")

    return tuple(replace(page, groups=tuple(own(group) for group in page.groups)) for page in pages)
