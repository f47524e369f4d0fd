"""From what a forest plot says to where everything stands."""

from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from evsyn.figures.forest.body import all_blocks, continued_block, placed
from evsyn.figures.forest.content import ForestContent
from evsyn.figures.forest.flow import Block, stretched, total_height, turned
from evsyn.figures.forest.foot import below, status
from evsyn.figures.forest.head import head, watermark
from evsyn.figures.forest.sheet import Sheet
from evsyn.figures.formats import PageFormat
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
    if fmt.max_rows is not None:
        content = _for_slide(content)
    rows = sum(len(band.lines) for band in content.bands)
    pages = _one_page(content, fmt)
    if pages is None and fmt.max_rows is not None and rows:
        content = _summaries_only(content, rows)
        pages = _one_page(content, fmt)
    if pages is None:
        pages = _several_pages(content, fmt)
    return FigureLayout(content.title, _description(content), fmt.unit, _with_own_ids(pages))


def _one_page(content: ForestContent, fmt: PageFormat) -> list[Page] | None:
    if fmt.max_rows is not None and _rows(content) > fmt.max_rows:
        return None
    sheets = [Sheet.across(content, fmt, size) for size in fmt.sizes]
    # Names are cut only where no smaller type, down to the least allowed, would spare them.
    for sheet in sorted(sheets, key=lambda sheet: sheet.cramped):
        blocks = all_blocks(sheet)
        if fmt.height is None or total_height(blocks) <= _room(sheet, fmt.height, 1):
            return [_page(sheet, blocks, 1, 1)]
    return None


def _several_pages(content: ForestContent, fmt: PageFormat) -> list[Page]:
    sheet = Sheet.across(content, fmt, fmt.paged_size)
    room = _room(sheet, fmt.height or 0.0, _MANY)
    if room < _LEAST_LINES * sheet.line_height:
        raise ValueError("title, caption and status line leave no room for the rows on this sheet")
    blocks, title = all_blocks(sheet), partial(continued_block, sheet)
    runs = turned(blocks, room, title)
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


def _room(sheet: Sheet, height: float, pages: int) -> float:
    """Return the height left for the bands."""
    above = head(sheet)[1]
    foot = below(sheet, 0)[1] + _ABOVE_STATUS * sheet.size + status(sheet, 0, pages, pages)[1]
    return height - above - foot - _bottom_margin(sheet)


def _bottom_margin(sheet: Sheet) -> float:
    return 0.5 * sheet.fmt.margin


def _page(sheet: Sheet, blocks: Sequence[Block], page: int, pages: int) -> Page:
    above, top = head(sheet)
    height = sheet.fmt.height
    room = 0.0 if height is None else _room(sheet, height, pages)
    heights = stretched(blocks, room, _MOST_GAIN * sheet.size)
    behind, before, bottom = placed(sheet, blocks, heights, top)
    foot, y = below(sheet, bottom)
    y += _ABOVE_STATUS * sheet.size
    if height is not None:
        y = max(y, height - _bottom_margin(sheet) - status(sheet, 0, page, pages)[1])
    last, y = status(sheet, y, page, pages)
    groups: list[Group] = [*behind, *watermark(sheet, top, bottom), *above, *before, *foot, *last]
    whole = y + _bottom_margin(sheet) if height is None else height
    return Page(sheet.fmt.width, whole, tuple(groups))


def _for_slide(content: ForestContent) -> ForestContent:
    """Take the short words where there are any."""
    return replace(
        content,
        bands=tuple(
            replace(band, sentence=band.short_sentence or band.sentence) for band in content.bands
        ),
        caption=content.short_caption or content.caption,
    )


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
    return f"{content.title}. {content.subtitle}. {bands} {content.status_line}"


def _with_own_ids(pages: Sequence[Page]) -> tuple[Page, ...]:
    """Number the ids that occur more than once, as for a study in two bands."""
    seen: dict[str, int] = {}

    def own(group: Group) -> Group:
        if not group.id:
            return group
        seen[group.id] = seen.get(group.id, 0) + 1
        return group if seen[group.id] == 1 else replace(group, id=f"{group.id}_{seen[group.id]}")

    return tuple(replace(page, groups=tuple(own(group) for group in page.groups)) for page in pages)
