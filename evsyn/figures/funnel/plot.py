"""The plot of a funnel: axes, lines with their names, units with theirs."""

from collections.abc import Sequence
from itertools import pairwise

from evsyn.figures.funnel.content import FunnelPoint, Stroke
from evsyn.figures.funnel.marks import band_edges, band_fill, curve_marks, point_marks
from evsyn.figures.funnel.scales import Ground
from evsyn.figures.funnel.sheet import GAP, Sheet, centre_words
from evsyn.figures.label_places import Labelled, Placed, label_places
from evsyn.figures.measure import text_width, typeset
from evsyn.figures.own_count import OwnCount
from evsyn.figures.palette import BANDS, DIM, INK, PAPER, RULE, UNIT
from evsyn.figures.shapes import ASCENT, DESCENT, Box, Group, Line, Rect, Shape
from evsyn.figures.sources import places, source_id
from evsyn.figures.ticks import tick_words

_COLOURS = BANDS[0]


def ground_groups(sheet: Sheet, top: float, height: float) -> list[Group]:
    """Return axes, lines and the range of a plot between two heights."""
    ground = sheet.ground(top, height)
    return [
        _back(ground),
        _limits(sheet, ground),
        _axes(sheet, ground, top),
        _line_names(sheet, ground),
    ]


def _back(ground: Ground) -> Group:
    box = Box(ground.left, ground.top, ground.right, ground.bottom)
    return Group("wash", (Rect(box, _COLOURS.wash),))


def _limits(sheet: Sheet, ground: Ground) -> Group:
    size, content = sheet.size, sheet.content
    cases = [point.cases for point in content.points if point.is_drawn]
    shapes: list[Shape] = []
    if content.band is not None:
        shapes += band_fill(ground, content.band, _COLOURS)
    for tick in sheet.shares.ticks:
        y = ground.y(tick / 100)
        shapes.append(Line(ground.left, y, ground.right, y, PAPER, 0.1 * size))
    if content.band is not None:
        shapes += band_edges(ground, content.band, size, _COLOURS)
    for curve in content.curves:
        shapes += curve_marks(ground, curve, size, cases)
    if content.centre is not None:
        y = ground.y(content.centre)
        shapes.append(Line(ground.left, y, ground.right, y, _COLOURS.strong, 0.13 * size))
    return Group("limits", tuple(shapes))


def _axes(sheet: Sheet, ground: Ground, top: float) -> Group:
    size = sheet.size
    shapes: list[Shape] = []
    y = top
    for line in sheet.up_lines():
        y += sheet.line_height
        base = sheet.baseline(y - sheet.line_height / 2)
        shapes.append(typeset(sheet.left, base, line, size, INK))
    for tick in sheet.shares.ticks:
        base = sheet.baseline(ground.y(tick / 100))
        x = ground.left - 0.4 * size
        shapes.append(typeset(x, base, tick_words(tick), size, DIM, anchor="end"))
    rule = (RULE, 0.08 * size)
    shapes.append(Line(ground.left, ground.top, ground.left, ground.bottom, *rule))
    shapes.append(Line(ground.left, ground.bottom, ground.right, ground.bottom, *rule))
    y = ground.bottom + 0.2 * size + sheet.line_height / 2
    for cases in sheet.case_ticks():
        x = ground.x(cases)
        shapes.append(Line(x, ground.bottom, x, ground.bottom + 0.25 * size, *rule))
        shapes.append(typeset(x, sheet.baseline(y), f"{cases:,}", size, DIM, anchor="middle"))
    y += sheet.line_height
    middle = (ground.left + ground.right) / 2
    across = sheet.content.words.across
    shapes.append(typeset(middle, sheet.baseline(y), across, size, INK, anchor="middle"))
    for line in sheet.note_lines():
        y += sheet.line_height
        shapes.append(typeset(sheet.left, sheet.baseline(y), line, size, DIM))
    return Group("axis", tuple(shapes))


def _line_names(sheet: Sheet, ground: Ground) -> Group:
    """Name the lines at their right ends, moved apart where they lie close."""
    content, words = sheet.content, sheet.content.words
    named = {Stroke.ALERT: words.alert, Stroke.ALARM: words.alarm}
    wanted: list[tuple[float, str]] = []
    for curve in content.curves:
        share = curve.places[-1][1]
        # A line that lies along 0 or 100% bounds nothing there.
        is_seen = sheet.shares.start <= 100 * share <= sheet.shares.end and 0 < share < 1
        if curve.stroke in named and is_seen:
            wanted.append((ground.y(share), named[curve.stroke]))
    if content.centre is not None:
        wanted.append((ground.y(content.centre), centre_words(content)))
    wanted.sort()
    # The last number of cases stands just below.
    lowest = ground.bottom - 0.4 * sheet.size
    heights = apart([y for y, _ in wanted], sheet.line_height, lowest)
    x = ground.right + GAP * sheet.size / 2
    texts = [
        typeset(x, sheet.baseline(y), said, sheet.size, DIM)
        for y, (_, said) in zip(heights, wanted, strict=True)
    ]
    return Group("limits", tuple(texts))


def apart(heights: Sequence[float], room: float, bottom: float) -> list[float]:
    """Return heights in order, each at least ``room`` below the one before and none too low."""
    moved: list[float] = []
    for y in heights:
        moved.append(max(y, moved[-1] + room) if moved else y)
    limit = bottom
    for i in range(len(moved) - 1, -1, -1):
        moved[i] = min(moved[i], limit)
        limit = moved[i] - room
    return moved


def joint_labels(points: Sequence[FunnelPoint], *, is_numbered: bool) -> tuple[str, ...]:
    """Return the words beside each mark; units with the same count share those of the first.

    Parameters
    ----------
    points : sequence of FunnelPoint
        The units.
    is_numbered : bool
        Whether marks bear numbers and not names.
    """
    alike: dict[OwnCount, list[int]] = {}
    for i, point in enumerate(points):
        alike.setdefault(point.own, []).append(i)
    words = [""] * len(points)
    for together in alike.values():
        first = points[together[0]]
        if is_numbered:
            words[together[0]] = ", ".join(f"{i + 1}" for i in together)
        else:
            names = ", ".join(points[i].label for i in together)
            words[together[0]] = f"{names}{first.words.removeprefix(first.label)}"
    return tuple(words)


def labels_placed(
    sheet: Sheet,
    ground: Ground,
    points: Sequence[FunnelPoint],
    words: Sequence[str],
    *,
    anywhere: bool,
) -> list[Placed | None]:
    """Place the words of each unit beside its mark: flagged ones first, then from the right.

    Numbers may stand anywhere, names only near their mark.
    """
    size = sheet.size
    order = sorted(
        (i for i, said in enumerate(words) if said),
        key=lambda i: (not points[i].said, -points[i].cases),
    )
    labels = [
        Labelled(
            point_marks(ground, points[i], size)[1],
            text_width(words[i], size, bold=bool(points[i].said)) + 0.1 * size,
            (ASCENT + DESCENT) * size,
        )
        for i in order
    ]
    found = label_places(
        labels,
        Box(ground.left, ground.top, ground.right, ground.bottom),
        marks=[point_marks(ground, point, size)[1] for point in points],
        lines=_drawn_places(sheet, ground),
        anywhere=anywhere,
    )
    placed: list[Placed | None] = [None] * len(points)
    for i, place in zip(order, found, strict=True):
        placed[i] = place
    return placed


def _drawn_places(sheet: Sheet, ground: Ground) -> list[tuple[float, float]]:
    """Return points along every line, close enough that no label slips between two."""
    content, step = sheet.content, 0.5 * sheet.size
    lines = [curve.places for curve in content.curves]
    if content.band is not None:
        lines += [content.band.lower, content.band.upper]
    if content.centre is not None:
        lines.append(((0.0, content.centre), (float(content.cases_end), content.centre)))
    dots: list[tuple[float, float]] = []
    for places_ in lines:
        for run in ground.runs(places_):
            for (x1, y1), (x2, y2) in pairwise(run):
                parts = max(1, int(max(abs(x2 - x1), abs(y2 - y1)) / step))
                dots += [
                    (x1 + (x2 - x1) * i / parts, y1 + (y2 - y1) * i / parts) for i in range(parts)
                ]
    return dots


def unit_groups(
    sheet: Sheet,
    ground: Ground,
    points: Sequence[FunnelPoint],
    words: Sequence[str],
    *,
    anywhere: bool,
) -> list[Group]:
    """Return each unit's mark with its words and, where they stand apart, a line to them."""
    size = sheet.size
    groups = []
    found = labels_placed(sheet, ground, points, words, anywhere=anywhere)
    for point, said, place in zip(points, words, found, strict=True):
        mark, _ = point_marks(ground, point, size)
        shapes: list[Shape] = []
        if place is not None and place.leader is not None:
            shapes.append(Line(*place.leader, DIM, 0.09 * size))
        shapes.append(mark)
        if place is not None:
            base = place.box.top + ASCENT * size
            is_bold = bool(point.said)
            shapes.append(typeset(place.box.left, base, said, size, UNIT, bold=is_bold))
        sources = () if point.source is None else (point.source,)
        title = f"{point_sentence(point)}. {places(sources)}".strip()
        groups.append(Group("unit", tuple(shapes), source_id(sources), title))
    return groups


def point_sentence(point: FunnelPoint) -> str:
    """Return a unit in words, as in its title and in the description of the figure."""
    return f"{point.label}: {point.count}{f', {point.sentence}' if point.sentence else ''}"
