"""Blocks down a page: what may stretch, what must stay together, where a page may turn."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from evsyn.figures.shapes import Group

#: What a band's going on over a page turn costs, against a page left empty.
_GOES_ON = 0.1

Draw: TypeAlias = Callable[[float, float], Group | None]


def nothing(_top: float, _height: float) -> None:
    """Draw an empty block."""


@dataclass(frozen=True, slots=True)
class Block:
    """A strip of the page.

    Parameters
    ----------
    height : float
        Least height.
    draw : callable
        Takes top and height, returns the group.
    band : int or None
        Place of the band the strip belongs to; ``None`` between bands.
    plotted : bool
        Whether the axis runs through it.
    stretches : bool
        Whether it may grow to fill the page.
    keep : bool
        Whether the next block must stand on the same page.
    marks : frozenset of str
        Names of the marks drawn in it, for the legend.
    """

    height: float
    draw: Draw = nothing
    band: int | None = None
    plotted: bool = False
    stretches: bool = False
    keep: bool = False
    marks: frozenset[str] = frozenset()


def total_height(blocks: Sequence[Block]) -> float:
    """Return the least height of a run of blocks."""
    return sum(block.height for block in blocks)


def stretched(blocks: Sequence[Block], room: float, most: float) -> list[float]:
    """Return the height of each block when free room is shared among those that stretch.

    Parameters
    ----------
    blocks : sequence of Block
        One page.
    room : float
        Height to fill.
    most : float
        Most that one block may gain.
    """
    growing = sum(block.stretches for block in blocks)
    free = max(0.0, room - total_height(blocks))
    gain = min(most, free / growing) if growing else 0.0
    return [block.height + (gain if block.stretches else 0.0) for block in blocks]


def turned(
    blocks: Sequence[Block], room: float, continued: Callable[[int], Block]
) -> list[list[Block]]:
    """Spread blocks over as many pages as they need.

    Parameters
    ----------
    blocks : sequence of Block
        All blocks in order.
    room : float
        Height of a page.
    continued : callable
        Gives the title block of a band that goes on over a page turn.
    """
    pages: list[list[Block]] = []
    rest = list(blocks)
    while rest:
        while rest and rest[0].band is None:
            rest.pop(0)
        if not rest:
            break
        cut = _cut(rest, room)
        page, rest = rest[:cut], rest[cut:]
        while page and page[-1].band is None:
            page.pop()
        pages.append(page)
        last = page[-1].band
        if rest and last is not None and rest[0].band == last:
            rest.insert(0, continued(last))
    return pages


def even_pages(
    blocks: Sequence[Block], room: float, continued: Callable[[int], Block]
) -> list[list[Block]]:
    """Spread blocks over as few pages as hold them, evenly, and bands whole where they can be.

    Of all places where pages may turn those are taken that leave the least free, as the sum of
    squares over the pages; a band that goes on over a turn counts as a part of a page left free
    (the total-fit breaking of lines of Knuth and Plass, Softw Pract Exp 1981;11:1119-1184, put to
    pages; from memory).

    Parameters
    ----------
    blocks : sequence of Block
        All blocks in order.
    room : float
        Height of a page.
    continued : callable
        Gives the title block of a band that goes on over a page turn.
    """
    first = turned(blocks, room, continued)
    if len(first) < 2 or any(total_height(page) > room + 1e-6 for page in first):
        return first
    # The best way to fill pages with all blocks before each place: pages, cost, where it came from.
    best: list[tuple[int, float, int] | None] = [(0, 0.0, 0), *([None] * len(blocks))]
    for start in range(len(blocks)):
        before = best[start]
        if before is None:
            continue
        for end in _ends(blocks, start, room, continued):
            page = _page_of(blocks, start, end, continued)
            goes_on = end < len(blocks) and blocks[end].band == blocks[end - 1].band
            free = 1 - total_height(page) / room
            cost = before[1] + free**2 + (_GOES_ON if goes_on else 0.0)
            found = (before[0] + 1, cost, start)
            known = best[end]
            if known is None or found[:2] < known[:2]:
                best[end] = found
    return _traced(blocks, best, continued) or first


def _ends(
    blocks: Sequence[Block], start: int, room: float, continued: Callable[[int], Block]
) -> Iterator[int]:
    """Yield where a page that starts at a block may end."""
    for end in range(start + 1, len(blocks) + 1):
        page = _page_of(blocks, start, end, continued)
        if total_height(page) > room + 1e-6:
            return
        if end == len(blocks) or not (blocks[end - 1].keep or blocks[end].band is None):
            yield end


def _page_of(
    blocks: Sequence[Block], start: int, end: int, continued: Callable[[int], Block]
) -> list[Block]:
    """Return a page as it is drawn: no free room at its ends, its band named."""
    page = list(blocks[start:end])
    while page and page[0].band is None:
        page.pop(0)
    while page and page[-1].band is None:
        page.pop()
    band = page[0].band if page else None
    if start and band is not None and blocks[start - 1].band == band:
        page.insert(0, continued(band))
    return page


def _traced(
    blocks: Sequence[Block],
    best: Sequence[tuple[int, float, int] | None],
    continued: Callable[[int], Block],
) -> list[list[Block]]:
    """Return the pages of the best way, from the last back to the first; none without one."""
    pages: list[list[Block]] = []
    end = len(blocks)
    while end:
        found = best[end]
        if found is None:
            return []
        pages.insert(0, _page_of(blocks, found[2], end, continued))
        end = found[2]
    return pages


def _cut(blocks: Sequence[Block], room: float) -> int:
    """Return how many blocks fit, taking back those that must stay with the next."""
    fit, used = 0, 0.0
    for block in blocks:
        used += block.height
        if used > room + 1e-6:
            break
        fit += 1
    if fit == len(blocks):
        return fit
    cut = fit
    while cut > 0 and blocks[cut - 1].keep:
        cut -= 1
    # At least the title and one strip more, or the next page would begin just as this one did.
    return cut if cut > 1 else max(fit, 2)
