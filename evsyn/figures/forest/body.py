"""From bands to blocks, and from placed blocks to groups."""

from collections.abc import Sequence
from functools import partial

from evsyn.figures.flow import Block
from evsyn.figures.forest.content import Band
from evsyn.figures.forest.legend import band_marks, line_marks, unit_row_marks
from evsyn.figures.forest.rows import (
    band_title,
    fits_beside,
    sentence_line,
    study_row,
    summary_rows,
    title_lines,
    unit_pad,
    unit_row,
)
from evsyn.figures.forest.sheet import Sheet
from evsyn.figures.measure import wrapped
from evsyn.figures.palette import PAPER, RULE
from evsyn.figures.shapes import Box, Group, Line, Rect, Shape

#: Free room in bands, between them, and around pooled rows; width of a band's edge.
_PAD, _BETWEEN, _AROUND, _EDGE = 0.3, 0.6, 0.2, 0.4


def title_block(sheet: Sheet, index: int, title: str, counts: str, beside: str = "") -> Block:
    """Return the block of a band's title, with its short sentence beside it where there is one."""
    pad = _PAD * sheet.fmt.slack * sheet.size
    height = sheet.line_height * title_lines(sheet, title, counts) + pad
    draw = partial(band_title, sheet, title, counts, beside, sheet.colours(index))
    return Block(height, draw, index, keep=True)


def continued_block(sheet: Sheet, index: int) -> Block:
    """Return the title of a band that goes on over a page turn."""
    title = sheet.content.words.continued.format(title=sheet.content.bands[index].title)
    return title_block(sheet, index, title, "")


def all_blocks(sheet: Sheet) -> list[Block]:
    """Return every block of the figure, in order."""
    blocks: list[Block] = []
    for index, band in enumerate(sheet.content.bands):
        if blocks:
            blocks.append(Block(_BETWEEN * sheet.fmt.slack * sheet.size))
        blocks += _band_blocks(sheet, index, band)
    return blocks


def _band_blocks(sheet: Sheet, index: int, band: Band) -> list[Block]:
    colours, height = sheet.colours(index), sheet.row_height
    pad = _PAD * sheet.fmt.slack * sheet.size
    sentence = band.short_sentence if sheet.fmt.is_slide and band.short_sentence else band.sentence
    is_beside = sentence != band.sentence and fits_beside(sheet, band.title, band.counts, sentence)
    beside = sentence if is_beside else ""
    blocks = [title_block(sheet, index, band.title, band.counts, beside)]
    row = partial(Block, band=index, plotted=True, stretches=True)
    weights = [line.weight for line in band.lines if line.weight is not None]
    largest = max(weights, default=None)
    for i, line in enumerate(band.lines):
        draw = partial(study_row, sheet, line, largest, colours)
        # The first two rows stay with the title, the last two with what sums them up.
        keep = i == 0 or i >= len(band.lines) - 2
        marks = line_marks(sheet, line)
        blocks.append(row(height, draw, keep=keep, marks=marks))
    if band.summaries:
        draw_summary = partial(summary_rows, sheet, band, colours)
        tall = height * len(band.summaries) + _AROUND * sheet.fmt.slack * sheet.size
        blocks.append(row(tall, draw_summary, keep=True, marks=band_marks(band)))
    if band.unit is not None:
        draw_unit = partial(unit_row, sheet, band.unit)
        framed = height + 2 * unit_pad(sheet)
        marks = unit_row_marks(sheet, band.unit)
        blocks.append(row(framed, draw_unit, keep=True, marks=marks))
    if is_beside:
        return [*blocks, Block(pad, band=index)]
    blocks.append(Block(pad, band=index, keep=True))
    for words in wrapped(sentence, sheet.rate - sheet.label, sheet.size):
        draw_words = partial(sentence_line, sheet, words)
        blocks.append(Block(sheet.line_height, draw_words, index, keep=True))
    blocks.append(Block(pad, band=index))
    return blocks


def placed(
    sheet: Sheet, blocks: Sequence[Block], heights: Sequence[float], top: float
) -> tuple[list[Group], list[Group], float]:
    """Draw a page's blocks from a height downwards.

    Returns
    -------
    behind, before : list of Group
        Shades and grid; rows and words.
    bottom : float
        Where the last block ends.
    """
    before: list[Group] = []
    spans: dict[int, list[float]] = {}
    plotted: list[tuple[int, float, float]] = []
    y = top
    for block, height in zip(blocks, heights, strict=True):
        group = block.draw(y, height)
        if group is not None:
            before.append(group)
        if block.band is not None:
            spans.setdefault(block.band, [y, y])[1] = y + height
            if block.plotted:
                plotted.append((block.band, sheet.plot_top(y), y + height))
        y += height
    shades = [_shade(sheet, band, low, high) for band, (low, high) in spans.items()]
    return [*shades, _grid(sheet, plotted)], before, y


def _shade(sheet: Sheet, band: int, top: float, bottom: float) -> Group:
    colours = sheet.colours(band)
    shade = Rect(Box(sheet.left, top, sheet.right, bottom), colours.wash)
    edge = Rect(Box(sheet.left, top, sheet.left + _EDGE * sheet.size, bottom), colours.strong)
    return Group("wash", (shade, edge))


def _grid(sheet: Sheet, plotted: Sequence[tuple[int, float, float]]) -> Group:
    """Draw tick lines through the rows of each band, and a rule where the axis starts."""
    runs: list[tuple[int, float, float]] = []
    for band, top, bottom in plotted:
        if runs and runs[-1][0] == band and top - runs[-1][2] < 0.01:
            runs[-1] = (band, runs[-1][1], bottom)
        else:
            runs.append((band, top, bottom))
    shapes: list[Shape] = []
    for _, top, bottom in runs:
        for tick in sheet.axis.scale.ticks:
            x = sheet.axis.x(tick / 100)
            first = tick == sheet.axis.scale.start
            colour, thickness = (RULE, 0.08) if first else (PAPER, 0.12)
            shapes.append(Line(x, top, x, bottom, colour, thickness * sheet.size))
    return Group("axis", tuple(shapes))
