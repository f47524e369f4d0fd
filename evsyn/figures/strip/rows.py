"""One strip: its words, its columns, the bars at the ends of the range, and our mark."""

import math
from functools import partial

from evsyn.figures.flow import Block
from evsyn.figures.measure import text_width, typeset
from evsyn.figures.palette import DIM, INK, PAPER, UNIT, BandColours, band_colours
from evsyn.figures.shapes import Anchor, Box, Group, Rect, Shape, Text
from evsyn.figures.sources import places, source_id
from evsyn.figures.strip.content import Columns, Strip
from evsyn.figures.strip.marks import BAR, Ground, base_line, chance_marks, end_bar
from evsyn.figures.strip.sheet import AROUND, MARK, STACKED, Sheet, end_words, slot_width
from evsyn.figures.unit_mark import bracket_across, unit_triangle
from evsyn.wording.strip import heights_words, of_hundred

_BETWEEN = 0.6
#: Steps between the counts named under the columns, and the room between two of them.
_STEPS, _APART = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000), 0.7


def strip_blocks(sheet: Sheet) -> list[Block]:
    """Return every strip as a block, with room between them."""
    blocks: list[Block] = []
    for index, strip in enumerate(sheet.content.strips):
        if blocks:
            blocks.append(Block(_BETWEEN * sheet.fmt.slack * sheet.size))
        draw = partial(strip_group, sheet, strip)
        stretches = strip.columns is not None
        blocks.append(
            Block(
                sheet.height(strip),
                draw,
                index,
                stretches=stretches,
                marks=strip_marks(sheet, strip),
            )
        )
    return blocks


def strip_marks(sheet: Sheet, strip: Strip) -> frozenset[str]:
    """Name the marks of a strip, for the legend."""
    columns = strip.columns
    if columns is None:
        return frozenset()
    numbers = range(columns.first, columns.last + 1)
    found = {
        "column": columns.is_judged,
        "unjudged": not columns.is_judged,
        "beyond": columns.is_judged and any(map(columns.is_beyond, numbers)),
        "average": True,
        "bar": columns.first_more is not None or columns.last_fewer is not None,
        "ours": strip.own.is_exact,
        "bracket": len(strip.own.possible) > 1,
    }
    return frozenset(name for name, drawn in found.items() if drawn)


def strip_words(strip: Strip) -> str:
    """Return a strip in words, with every number that its columns show."""
    parts = [f"{strip.title}: {strip.own_words}", strip.size, *end_words(strip)]
    if strip.columns is not None:
        parts.append(heights_words(strip.columns.first, strip.columns.ordinary))
    return f"{'; '.join(part for part in parts if part)}. {strip.sentence}"


def strip_group(sheet: Sheet, strip: Strip, top: float, height: float) -> Group:
    """Return a strip between two heights."""
    colours = band_colours(strip.hue)
    place = Rect(Box(sheet.left, top, sheet.right, top + height))
    around = AROUND * sheet.size
    words, bottom = _words(sheet, strip, colours, top + around)
    shapes: list[Shape] = [place, *words]
    if strip.columns is not None:
        start = bottom + STACKED * sheet.size if sheet.fmt.stacked else top + around
        shapes += _plot(sheet, strip, strip.columns, colours, start, top + height - around)
    sources = () if strip.source is None else (strip.source,)
    said = f"{strip_words(strip)} {places(sources)}".strip()
    return Group("chances", tuple(shapes), source_id(sources), said)


def _words(
    sheet: Sheet, strip: Strip, colours: BandColours, top: float
) -> tuple[list[Text], float]:
    texts: list[Text] = []
    y = top
    for lines, colour, bold in (
        (sheet.title_lines(strip), colours.strong, True),
        (sheet.own_lines(strip), UNIT, True),
        (sheet.size_lines(strip), DIM, False),
        (sheet.said_lines(strip), INK, False),
    ):
        for line in lines:
            y += sheet.line_height
            base = sheet.baseline(y - sheet.line_height / 2)
            texts.append(typeset(sheet.label, base, line, sheet.size, colour, bold=bold))
    return texts, y


def _plot(
    sheet: Sheet, strip: Strip, columns: Columns, colours: BandColours, top: float, bottom: float
) -> list[Shape]:
    size, line = sheet.size, sheet.line_height
    ends = sheet.end_lines(strip)
    base = bottom - sheet.own_height(strip) - line
    over = top + line * len(ends)
    slot = slot_width(columns, sheet.plot_right - sheet.plot_left, size)
    # The numbers over the columns need a line of their own.
    ground = Ground(columns, sheet.plot_left, slot, over + 1.15 * line, base, size)
    ours = strip.own.possible[0] if strip.own.is_exact else None
    return [
        *chance_marks(ground, ours, colours),
        base_line(ground),
        *_numbers(ground, ours),
        *_ends(sheet, ground, ends, top, over),
        *_counts(sheet, ground),
        *_own(sheet, strip, ground, base + line),
    ]


def _numbers(ground: Ground, ours: int | None) -> list[Text]:
    """Write over each column how many of 100 units it is; where they are many, over the tallest."""
    columns, size = ground.columns, ground.size
    if ground.is_narrow:
        return []
    words = [of_hundred(chance) for chance in columns.ordinary]
    widest = max(text_width(word, size, bold=True) for word in words)
    tallest = max(range(len(words)), key=lambda i: columns.ordinary[i])
    all_fit = widest <= ground.slot - 2 * BAR * size
    texts = []
    for i, word in enumerate(words):
        if not word or not (all_fit or i == tallest):
            continue
        number = columns.first + i
        is_ours = number == ours
        half = text_width(word, size, bold=True) / 2
        y, is_inside = _number_height(ground, i, half)
        colour = PAPER if is_inside and is_ours else INK
        x = min(max(ground.middle(number), ground.left + half), ground.right - half)
        texts.append(typeset(x, y, word, size, colour, anchor="middle", bold=is_ours))
    return texts


def _number_height(ground: Ground, i: int, half: float) -> tuple[float, bool]:
    """Return the baseline of a column's number, clear of ticks, and whether it is in the column."""
    columns, size = ground.columns, ground.size
    # Words wider than their slot stand over the columns beside it as well.
    reach = math.ceil(max(0.0, half / ground.slot - 0.5))
    beside = slice(max(0, i - reach), i + reach + 1)
    top = ground.y(max(columns.ordinary[beside]))
    tick = ground.y(max(columns.average[beside]))
    lift, need = 0.28 * size, 1.2 * size
    if reach:
        return min(top, tick) - lift, False
    if tick > top or top - tick >= need:
        return top - lift, False
    if ground.base - top >= need:
        return top + 0.95 * size, True
    return tick - lift, False


def _ends(
    sheet: Sheet,
    ground: Ground,
    lines: tuple[tuple[str, str], ...],
    top: float,
    over: float,
) -> list[Shape]:
    """Return the bars at the ends of the range, and the words over them."""
    columns, size = ground.columns, sheet.size
    shapes: list[Shape] = []
    is_folded = sum(bool(more) for _, more in lines) > 1
    head = over + 0.12 * size
    if columns.last_fewer is not None:
        x = ground.edge(columns.last_fewer + 1)
        shapes.append(end_bar(x, head, ground.base, size, -1))
    if columns.first_more is not None:
        x = ground.edge(columns.first_more)
        shapes.append(end_bar(x, head, ground.base, size, 1))
    for i, (fewer, more) in enumerate(lines):
        y = sheet.baseline(top + (i + 0.5) * sheet.line_height)
        used = sheet.plot_left
        if fewer:
            shapes.append(typeset(used, y, fewer, size, INK))
            used += text_width(fewer, size) + size
        if more:
            # Words start at their bar where there is room to the right of it.
            long = text_width(more, size)
            x = sheet.plot_left if is_folded else sheet.plot_right - long
            if columns.first_more is not None:
                x = min(x, ground.edge(columns.first_more))
            shapes.append(typeset(max(x, used), y, more, size, INK))
    return shapes


def _counts(sheet: Sheet, ground: Ground) -> list[Text]:
    """Return the counts under the columns, as many as there is room for."""
    columns, size = ground.columns, sheet.size
    widest = text_width(f"{columns.last:,}", size) + _APART * size
    step = next((s for s in _STEPS if s * ground.slot >= widest), _STEPS[-1])
    y = sheet.baseline(ground.base + sheet.line_height / 2)
    texts = []
    for number in range(columns.first, columns.last + 1):
        if number % step == 0:
            x = ground.middle(number)
            texts.append(typeset(x, y, f"{number:,}", size, DIM, anchor="middle"))
    return texts


def _own(sheet: Sheet, strip: Strip, ground: Ground, top: float) -> list[Shape]:
    """Return our mark under the counts, with its words beside or below it."""
    size, own = sheet.size, strip.own
    width = text_width(strip.own_words, size, bold=True)
    if own.is_withheld:
        y = sheet.baseline(top + sheet.line_height / 2)
        return [typeset(sheet.plot_left, y, strip.own_words, size, UNIT, bold=True)]
    if own.is_exact:
        x, y = ground.middle(own.possible[0]), top + sheet.line_height / 2
        anchor: Anchor = "start"
        at = x + 0.9 * size
        if at + width > sheet.plot_right:
            anchor, at = "end", x - 0.9 * size
        said = typeset(at, sheet.baseline(y), strip.own_words, size, UNIT, anchor=anchor, bold=True)
        mark = unit_triangle(x, y - 0.12 * size, 0.85 * size)
        return [mark, said]
    low, high = ground.edge(own.possible[0]), ground.edge(own.possible[-1] + 1)
    middle = max((low + high) / 2, sheet.plot_left + width / 2)
    middle = min(middle, sheet.plot_right - width / 2)
    y = sheet.baseline(top + MARK * size + sheet.line_height / 2)
    said = typeset(middle, y, strip.own_words, size, UNIT, anchor="middle", bold=True)
    return [bracket_across(low, high, top + 0.08 * size, size), said]


def shade(sheet: Sheet, hue: int, top: float, bottom: float) -> Group:
    """Return the shade behind a strip, with the bar at its edge."""
    colours = band_colours(hue)
    ground = Rect(Box(sheet.left, top, sheet.right, bottom), colours.wash)
    edge = Rect(Box(sheet.left, top, sheet.left + 0.4 * sheet.size, bottom), colours.strong)
    return Group("wash", (ground, edge))
