"""The head of a page: invented mark, title, column headings, tick values."""

import math

from evsyn.figures.forest.content import Invented
from evsyn.figures.forest.scale import tick_label
from evsyn.figures.forest.sheet import Sheet
from evsyn.figures.measure import text_width, typeset, wrapped
from evsyn.figures.palette import (
    DIM,
    INK,
    INVENTED_GROUND,
    INVENTED_INK,
    RULE,
    WATERMARK,
    WATERMARK_OPACITY,
)
from evsyn.figures.shapes import Box, Group, Line, Rect, Shape, Text

_TURN = 24.0


def head(sheet: Sheet) -> tuple[list[Group], float]:
    """Return the groups above the bands, and where they end."""
    groups: list[Group] = []
    content, size, y = sheet.content, sheet.size, sheet.fmt.margin
    if content.banner:
        strip, bottom = _invented(sheet)
        groups.append(strip)
        y = max(y, bottom + 0.5 * size)
    big = sheet.fmt.title_scale * size
    room = sheet.right - sheet.left
    shapes: list[Shape] = []
    for words in wrapped(content.title, room, big, bold=True):
        shapes.append(typeset(sheet.left, y + 0.95 * big, words, big, INK, bold=True))
        y += 1.2 * big
    for words in wrapped(content.subtitle, room, size):
        shapes.append(typeset(sheet.left, y + 0.95 * size, words, size, DIM))
        y += sheet.line_height
    groups.append(Group("title", tuple(shapes)))
    y += 0.3 * size
    if content.is_empty:
        return groups, y
    headings, y = _headings(sheet, y)
    return [*groups, headings], y


def _invented(sheet: Sheet) -> tuple[Group, float]:
    size, width = sheet.size, sheet.fmt.width
    lines = wrapped(sheet.content.banner, width - 2 * size, size, bold=True)
    bottom = sheet.line_height * len(lines) + 0.3 * size
    texts = [
        typeset(
            width / 2,
            sheet.baseline(0.15 * size + (i + 0.5) * sheet.line_height),
            words,
            size,
            INVENTED_INK,
            anchor="middle",
            bold=True,
        )
        for i, words in enumerate(lines)
    ]
    ground = Rect(Box(0, 0, width, bottom), INVENTED_GROUND)
    edge = Line(0, bottom, width, bottom, INVENTED_INK, 0.1 * size)
    return Group("invented", (ground, edge, *texts)), bottom


def _headings(sheet: Sheet, top: float) -> tuple[Group, float]:
    words, size = sheet.content.words, sheet.size
    y = top + 0.95 * size
    shapes: list[Shape] = []
    bands = sheet.content.bands
    counts = words.count if any(band.observed for band in bands) else ""
    if any(band.lines for band in bands):
        shapes.append(typeset(sheet.label, y, words.study, size, DIM))
    if sheet.fmt.stacked:
        rate = words.rate_alone if sheet.cramped and counts else words.rate
        both = f"{counts}, {rate}" if counts else rate
        shapes.append(typeset(sheet.rate, y, both, size, DIM, anchor="end"))
        y += sheet.line_height
    else:
        if counts:
            shapes.append(typeset(sheet.count, y, counts, size, DIM, anchor="end"))
        shapes.append(typeset(sheet.rate, y, words.rate, size, DIM, anchor="end"))
    shapes += tick_labels(sheet, y)
    return Group("heading", tuple(shapes)), y + 0.45 * size


def tick_labels(sheet: Sheet, baseline: float) -> list[Shape]:
    """Return the tick values on a baseline, with two strokes where the axis does not start at 0."""
    axis, size = sheet.axis, sheet.size
    shapes: list[Shape] = [
        typeset(axis.x(tick / 100), baseline, tick_label(tick), size, DIM, anchor="middle")
        for tick in axis.scale.ticks
    ]
    if axis.scale.start > 0:
        first = text_width(tick_label(axis.scale.start), size)
        x = axis.left - first / 2 - 0.75 * size
        for shift in (0.0, 0.3 * size):
            start, end = baseline + 0.05 * size, baseline - 0.75 * size
            shapes.append(Line(x + shift, start, x + shift + 0.25 * size, end, RULE, 0.1 * size))
    return shapes


def watermark(sheet: Sheet, top: float, bottom: float) -> list[Group]:
    """Return large thin words over the bands, for invented studies; repeated on a tall screen.

    They lie over the rows and let them show through: under the rows, bars and frames would hide
    letters. Where only the unit is invented, its row says so, and the studies stay unmarked.
    """
    if sheet.content.invented not in (Invented.ALL, Invented.STUDIES):
        return []
    words, width, height = sheet.content.words.watermark, sheet.fmt.width, bottom - top
    times = max(1, round(height / (1.2 * width)))
    each = height / times
    # Flatter on a low figure, where steep words would have to be small.
    degrees = min(_TURN, math.degrees(math.atan2(each, width)))
    turn = math.radians(degrees)
    long = text_width(words, 1.0, bold=True)
    across = 0.8 * width / (long * math.cos(turn) + math.sin(turn))
    down = 0.92 * each / (long * math.sin(turn) + math.cos(turn))
    size = max(min(across, down), sheet.size)
    texts: list[Text] = [
        typeset(
            width / 2 + 0.36 * size * math.sin(turn),
            top + (i + 0.5) * each + 0.36 * size * math.cos(turn),
            words,
            size,
            WATERMARK,
            anchor="middle",
            bold=True,
            rotation=degrees,
            opacity=WATERMARK_OPACITY,
        )
        for i in range(times)
    ]
    return [Group("watermark", tuple(texts))]
