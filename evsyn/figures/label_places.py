"""Where the words beside marks can stand without lying on one another."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

from evsyn.figures.shapes import Box

#: Directions tried, and distances from the mark in units of its label's height.
_DIRECTIONS = (0, 45, -45, 180, 135, -135, 90, -90, 20, -20, 160, -160)
_DISTANCES = (0.25, 0.5, 1.1, 1.9, 2.9, 4.1, 5.6, 7.5)
#: Nearer than this a label needs no line to its mark.
NEAR = 0.5
#: Nearer than this to another mark, in units of its height, a label may be taken for that one's.
_REACH = 0.9
#: Room between two labels side by side, in units of their height.
_SPACE = 0.7
#: Places at which a line to a mark is held against boxes.
_STEPS = 24

Point: TypeAlias = tuple[float, float]
Leader: TypeAlias = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Labelled:
    """A mark and the size of its label."""

    mark: Box
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Placed:
    """Where a label stands, and the line from its mark, where it needs one."""

    box: Box
    leader: Leader | None


def label_places(
    labels: Sequence[Labelled],
    area: Box,
    *,
    marks: Sequence[Box],
    lines: Sequence[Point] = (),
    anywhere: bool = True,
) -> list[Placed | None]:
    """Place labels one after another, each as near to its mark as it can stand.

    Parameters
    ----------
    labels : sequence of Labelled
        In order: the first choose first.
    area : Box
        What labels may not leave.
    marks : sequence of Box
        Every mark, with those of the labels, which no label may hide.
    lines : sequence of tuple
        Points of drawn lines, which labels keep clear of where they can.
    anywhere : bool
        Whether a label may stand far from its mark.

    Returns
    -------
    list of Placed or None
        In the same order; ``None`` where there is no room.
    """
    taken: list[Placed] = []
    found: list[Placed | None] = []
    for item in labels:
        near = _near_candidates(item)
        held = [_held(place, item.mark, area) for place in near]
        own = [place for place in (*near, *held) if _is_own(place, item.mark, marks)]
        place = _first_free(own, item, area, marks, taken, lines)
        # Words on a line can be read, words beside the mark of another mislead.
        place = place or _first_free(own, item, area, marks, taken, ())
        place = place or _first_free(near, item, area, marks, taken, lines)
        if place is None:
            every = [*near, *_far_candidates(item, area)] if anywhere else near
            place = _first_free(every, item, area, marks, taken, lines)
            # Words on a line, or a leader over a mark, are better than no words.
            place = place or _first_free(every, item, area, marks, taken, ())
            if anywhere and place is None:
                place = _first_free(every, item, area, marks, taken, (), may_cross=True)
        if place is not None:
            taken.append(place)
        found.append(place)
    return found


def _first_free(
    candidates: Sequence[Placed],
    item: Labelled,
    area: Box,
    marks: Sequence[Box],
    taken: Sequence[Placed],
    lines: Sequence[Point],
    *,
    may_cross: bool = False,
) -> Placed | None:
    for place in candidates:
        if _is_free(place, area, marks, taken, lines) and (
            may_cross or _leads_clear(place.leader, item.mark, marks, taken)
        ):
            return place
    return None


def _near_candidates(item: Labelled) -> list[Placed]:
    """Return places around a mark, the nearest first."""
    return [
        _at(item, distance, math.radians(direction))
        for distance in _DISTANCES
        for direction in _DIRECTIONS
    ]


def _far_candidates(item: Labelled, area: Box) -> list[Placed]:
    """Return places all over the area, the nearest to a mark first."""
    mark, wide, high = item.mark, item.width / 2, item.height / 2
    middle = ((mark.left + mark.right) / 2, (mark.top + mark.bottom) / 2)
    spots = [
        (area.left + wide + i * high, area.top + high + j * high)
        for i in range(max(0, int((area.right - area.left - item.width) / high) + 1))
        for j in range(max(0, int((area.bottom - area.top - item.height) / high) + 1))
    ]
    spots.sort(key=lambda spot: math.dist(spot, middle))
    return [_led(mark, Box(x - wide, y - high, x + wide, y + high)) for x, y in spots]


def _at(item: Labelled, distance: float, direction: float) -> Placed:
    """Return a label a distance from its mark, in a direction counted from the right, upwards."""
    mark, wide, high = item.mark, item.width / 2, item.height / 2
    far = distance * item.height
    across = (mark.right - mark.left) / 2 + far + wide
    up = (mark.bottom - mark.top) / 2 + far + high
    x = (mark.left + mark.right) / 2 + math.cos(direction) * across
    y = (mark.top + mark.bottom) / 2 - math.sin(direction) * up
    box = Box(x - wide, y - high, x + wide, y + high)
    return Placed(box, None) if distance <= NEAR else _led(mark, box)


def _led(mark: Box, box: Box) -> Placed:
    """Return a label with the line that leads to it from its mark."""
    start = _nearest(mark, ((box.left + box.right) / 2, (box.top + box.bottom) / 2))
    return Placed(box, (*start, *_nearest(box, start)))


def _nearest(box: Box, point: Point) -> Point:
    """Return the point of a box nearest to another."""
    x, y = point
    return min(max(x, box.left), box.right), min(max(y, box.top), box.bottom)


def _is_free(
    place: Placed,
    area: Box,
    marks: Sequence[Box],
    taken: Sequence[Placed],
    lines: Sequence[Point],
) -> bool:
    """Whether words lie on nothing."""
    box = place.box
    if not box.inside(area) or any(box.overlaps(mark) for mark in marks):
        return False
    if any(box.overlaps(_spaced(other.box)) or _crosses(other.leader, box) for other in taken):
        return False
    return not any(_holds(box, point) for point in lines)


def _spaced(box: Box) -> Box:
    """Return a label with the room that keeps the words beside it from running on."""
    room = _SPACE * (box.bottom - box.top)
    return Box(box.left - room, box.top, box.right + room, box.bottom)


def _held(place: Placed, mark: Box, area: Box) -> Placed:
    """Return a place moved along its line of words until it lies within the area."""
    box = place.box
    shift = min(0.0, area.right - box.right) + max(0.0, area.left - box.left)
    moved = Box(box.left + shift, box.top, box.right + shift, box.bottom)
    return Placed(moved, None) if place.leader is None else _led(mark, moved)


def _is_own(place: Placed, own: Box, marks: Sequence[Box]) -> bool:
    """Whether no other mark is in reach of words, nor nearer than theirs unless a line leads."""
    box = place.box
    least = _REACH * (box.bottom - box.top)
    if place.leader is None:
        least = max(least, _gap(box, own))
    return all(_gap(box, mark) > least for mark in marks if mark != own)


def _gap(one: Box, other: Box) -> float:
    across = max(one.left - other.right, other.left - one.right, 0.0)
    return math.hypot(across, max(one.top - other.bottom, other.top - one.bottom, 0.0))


def _leads_clear(
    leader: Leader | None, own: Box, marks: Sequence[Box], taken: Sequence[Placed]
) -> bool:
    """Whether a line to a mark crosses no words, no other such line and no other mark."""
    if any(_crosses(leader, other.box) or _cross(leader, other.leader) for other in taken):
        return False
    return not any(_crosses(leader, mark) for mark in marks if mark != own)


def _crosses(leader: Leader | None, box: Box) -> bool:
    """Whether a line passes through a box."""
    if leader is None:
        return False
    x1, y1, x2, y2 = leader
    parts = ((i / _STEPS) for i in range(_STEPS + 1))
    return any(_holds(box, (x1 + (x2 - x1) * part, y1 + (y2 - y1) * part)) for part in parts)


def _cross(one: Leader | None, other: Leader | None) -> bool:
    """Whether two lines cross."""
    if one is None or other is None:
        return False
    a, b, c, d = one[:2], one[2:], other[:2], other[2:]
    return _side(a, b, c) != _side(a, b, d) and _side(c, d, a) != _side(c, d, b)


def _side(start: Point, end: Point, point: Point) -> bool:
    across = (end[0] - start[0]) * (point[1] - start[1])
    return across > (end[1] - start[1]) * (point[0] - start[0])


def _holds(box: Box, point: Point) -> bool:
    return box.left < point[0] < box.right and box.top < point[1] < box.bottom
