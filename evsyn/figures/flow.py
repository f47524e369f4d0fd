"""Blocks down a page: what may stretch, what must stay together, where a page may turn."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from evsyn.figures.shapes import Group

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
