"""From blocks to pages: what fits, how free room is shared, where a page turns."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Protocol

from evsyn.figures.flow import Block, even_pages, stretched, total_height, turned
from evsyn.figures.paper import Paper
from evsyn.figures.shapes import Group, Page

#: Free room between what is drawn and the status line, in units of the type size.
_ABOVE_STATUS = 0.5
#: A page must have room for this many lines between head and foot.
_LEAST_LINES = 6
#: Stands for the page number while the number of pages is not known.
_MANY = 999


class Composition(Protocol):
    """A figure at one type size, as blocks between a head and a foot."""

    @property
    def paper(self) -> Paper:
        """Return the sheet."""

    @property
    def blocks(self) -> Sequence[Block]:
        """Return every block, in order."""

    @property
    def most_gain(self) -> float:
        """Return the most that a block which stretches may grow."""

    def head(self) -> tuple[list[Group], float]:
        """Return the groups above the blocks, and where they end."""

    def body(
        self, blocks: Sequence[Block], heights: Sequence[float], top: float
    ) -> tuple[list[Group], list[Group], float]:
        """Return what lies behind the head, what lies before it, and where the blocks end."""

    def foot(self, blocks: Sequence[Block], top: float) -> tuple[list[Group], float]:
        """Return what stands under the blocks of a page, and where it ends."""

    def status(self, top: float, page: int, pages: int) -> tuple[Group, float]:
        """Return the status line, and where it ends."""

    def over(self, top: float, bottom: float) -> list[Group]:
        """Return what lies over the blocks."""

    def continued(self, band: int) -> Block:
        """Return the title of a band that goes on over a page turn."""


def fits(figure: Composition) -> bool:
    """Whether one page holds the figure."""
    height = figure.paper.fmt.height
    return height is None or total_height(figure.blocks) <= page_room(figure)


def page_room(figure: Composition, pages: int = 1) -> float:
    """Return the height that one page leaves for the blocks; 0 where pages grow with them."""
    height = figure.paper.fmt.height
    return 0.0 if height is None else _room(figure, height, pages, figure.blocks)


def heights_on_one_page(figure: Composition) -> list[float]:
    """Return the height of each block when the figure stands on one page."""
    return stretched(figure.blocks, page_room(figure), figure.most_gain)


def one_page(figure: Composition) -> list[Page]:
    """Return the figure on one page."""
    return [_page(figure, figure.blocks, 1, 1)]


def several_pages(figure: Composition) -> list[Page]:
    """Return the figure on as few pages as hold it, evenly filled on paper.

    Raises
    ------
    ValueError
        If head and foot leave no room for the blocks.
    """
    paper, blocks = figure.paper, figure.blocks
    room = page_room(figure, _MANY)
    least_room = max(_LEAST_LINES * paper.line_height, *(block.height for block in blocks))
    if room < least_room:
        raise ValueError("title, caption and status line leave no room for the rows on this sheet")
    # What is free on a slide is lost: there the next band comes as early as it can.
    turn = turned if paper.fmt.is_slide else even_pages
    runs = turn(blocks, room, figure.continued)
    return [_page(figure, run, i + 1, len(runs)) for i, run in enumerate(runs)]


def _room(figure: Composition, height: float, pages: int, blocks: Sequence[Block]) -> float:
    """Return the height left for the blocks."""
    above = figure.head()[1]
    foot = figure.foot(blocks, 0)[1] + _above_status(figure.paper)
    last = figure.status(0, pages, pages)[1]
    return height - above - foot - last - figure.paper.bottom_margin


def _above_status(paper: Paper) -> float:
    return _ABOVE_STATUS * paper.fmt.slack * paper.size


def _page(figure: Composition, blocks: Sequence[Block], page: int, pages: int) -> Page:
    paper = figure.paper
    above, top = figure.head()
    height = paper.fmt.height
    room = 0.0 if height is None else _room(figure, height, pages, blocks)
    heights = stretched(blocks, room, figure.most_gain)
    behind, before, bottom = figure.body(blocks, heights, top)
    foot, y = figure.foot(blocks, bottom)
    y += _above_status(paper)
    if height is not None:
        y = max(y, height - paper.bottom_margin - figure.status(0, page, pages)[1])
    last, y = figure.status(y, page, pages)
    groups = [*behind, *above, *before, *foot, last, *figure.over(top, bottom)]
    whole = y + paper.bottom_margin if height is None else height
    return Page(paper.fmt.width, whole, tuple(groups))


def with_own_ids(pages: Sequence[Page]) -> tuple[Page, ...]:
    """Number the ids that occur more than once, as for a study in two bands."""
    seen: dict[str, int] = {}

    def own(group: Group) -> Group:
        if not group.id:
            return group
        seen[group.id] = seen.get(group.id, 0) + 1
        return group if seen[group.id] == 1 else replace(group, id=f"{group.id}_{seen[group.id]}")

    return tuple(replace(page, groups=tuple(own(group) for group in page.groups)) for page in pages)
