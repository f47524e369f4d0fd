"""From what a performance funnel says to where everything stands."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from evsyn.figures.flow import Block
from evsyn.figures.formats import PageFormat
from evsyn.figures.funnel.build import drawn_points
from evsyn.figures.funnel.content import FunnelContent, FunnelPoint
from evsyn.figures.funnel.key import key_blocks
from evsyn.figures.funnel.legend import funnel_legend, funnel_marks
from evsyn.figures.funnel.plot import (
    ground_groups,
    joint_labels,
    labels_placed,
    point_sentence,
    unit_groups,
)
from evsyn.figures.funnel.sheet import Sheet
from evsyn.figures.invented import watermark
from evsyn.figures.pages import (
    fits,
    heights_on_one_page,
    one_page,
    page_room,
    several_pages,
    with_own_ids,
)
from evsyn.figures.running_text import page_head, page_status, running_lines, spoken_head
from evsyn.figures.sentence_page import sentence_page
from evsyn.figures.shapes import FigureLayout, Group, Page

#: The plot is no higher than this against its width.
_TALLEST = 1.3


def funnel_layout(content: FunnelContent, fmt: PageFormat) -> FigureLayout:
    """Lay out a performance funnel.

    Each unit is named beside its mark. Where not all names find room, marks bear numbers and a
    list of the units stands below, on further pages if need be.

    Parameters
    ----------
    content : FunnelContent
        What is shown.
    fmt : PageFormat
        ``A4``, ``SLIDE``, or ``web(width)``.

    Raises
    ------
    ValueError
        If the words leave no room for the plot.
    """
    description = _description(content)
    if fmt.is_slide:
        content = replace(
            content,
            caption=content.short_caption or content.caption,
            mark=content.short_mark or content.mark,
        )
    pages = _pages(content, fmt)
    return FigureLayout(content.title, description, fmt.unit, with_own_ids(pages))


def _pages(content: FunnelContent, fmt: PageFormat) -> list[Page]:
    if content.nothing:
        figure = _Funnel(Sheet.across(content, fmt, fmt.sizes[0]))
        above, y = figure.head()
        status = lambda top: figure.status(top, 1, 1)  # noqa: E731
        return [sentence_page(figure.paper, above, y, content.nothing, status)]
    sheets = [Sheet.across(content, fmt, size) for size in fmt.sizes]
    for sheet in sheets:
        named = _Funnel(sheet)
        if fits(named) and named.names_find_room():
            return one_page(named)
    for sheet in sheets:
        numbered = _Funnel(sheet, is_numbered=True)
        if fits(numbered):
            return one_page(numbered)
    # The list turns to further pages, so the plot takes what its own page leaves.
    content = replace(content, notes=(*content.notes, content.words.listed))
    figure = _Funnel(Sheet.across(content, fmt, fmt.paged_size), is_numbered=True)
    return several_pages(replace(figure, plot_height=page_room(figure, 99)))


@dataclass(frozen=True)
class _Funnel:
    """A performance funnel at one type size."""

    paper: Sheet
    is_numbered: bool = False
    plot_height: float | None = None

    @cached_property
    def points(self) -> tuple[FunnelPoint, ...]:
        return drawn_points(self.paper.content.points)

    @cached_property
    def labels(self) -> tuple[str, ...]:
        return joint_labels(self.points, is_numbered=self.is_numbered)

    @cached_property
    def blocks(self) -> list[Block]:
        height = self.paper.plot_height if self.plot_height is None else self.plot_height
        marks = funnel_marks(self.paper.content)
        plot = Block(height, band=0, stretches=self.plot_height is None, marks=marks)
        return [plot, *(key_blocks(self.paper, self.points) if self.is_numbered else ())]

    @property
    def most_gain(self) -> float:
        sheet = self.paper
        tallest = _TALLEST * (sheet.plot_right - sheet.plot_left)
        return max(0.0, tallest + sheet.above + sheet.below - sheet.plot_height)

    def names_find_room(self) -> bool:
        """Whether every unit can be named beside its mark."""
        if not all(map(self.paper.is_direct, self.labels)):
            return False
        height = heights_on_one_page(self)[0]
        # The plot keeps its height wherever it stands on the page.
        ground = self.paper.ground(0.0, height)
        found = labels_placed(
            self.paper, ground, self.points, self.labels, anywhere=self.is_numbered
        )
        return all(
            place is not None or not said for place, said in zip(found, self.labels, strict=True)
        )

    def head(self) -> tuple[list[Group], float]:
        content = self.paper.content
        return page_head(self.paper, content.banner, content.title, content.subtitle, content.mark)

    def body(
        self, blocks: Sequence[Block], heights: Sequence[float], top: float
    ) -> tuple[list[Group], list[Group], float]:
        before: list[Group] = []
        behind: list[Group] = []
        y = top
        for block, height in zip(blocks, heights, strict=True):
            if block.band == 0:
                behind = ground_groups(self.paper, y, height)
                ground = self.paper.ground(y, height)
                before += unit_groups(
                    self.paper, ground, self.points, self.labels, anywhere=self.is_numbered
                )
            group = block.draw(y, height)
            if group is not None:
                before.append(group)
            y += height
        return behind, before, y

    def foot(self, blocks: Sequence[Block], top: float) -> tuple[list[Group], float]:
        sheet = self.paper
        marks = frozenset[str]().union(*(block.marks for block in blocks))
        groups, y = [], top + 0.3 * sheet.size
        if marks:
            legend, y = funnel_legend(sheet, y, marks)
            groups.append(legend)
        caption, y = running_lines(sheet, "caption", sheet.content.caption, y + 0.2 * sheet.size)
        return [*groups, caption], y

    def status(self, top: float, page: int, pages: int) -> tuple[Group, float]:
        content = self.paper.content
        words = content.words.page
        return page_status(self.paper, content.status_line, words, top, page, pages)

    def over(self, top: float, bottom: float) -> list[Group]:
        content = self.paper.content
        return watermark(self.paper, content.invented, content.words.watermark, top, bottom)

    def continued(self, band: int) -> Block:
        """Return room where the list goes on."""
        return Block(0.5 * self.paper.size, band=band, keep=True)


def _description(content: FunnelContent) -> str:
    head = spoken_head(content.banner, content.mark)
    title = f"{content.title}. {content.subtitle}"
    units = ". ".join(point_sentence(point) for point in content.points)
    said = [f"{units}." if units else "", content.nothing, *map(_stop, content.notes)]
    return f"{head}{title} {' '.join(part for part in said if part)} {content.status_line}"


def _stop(words: str) -> str:
    return f"{words.removesuffix('.')}."
