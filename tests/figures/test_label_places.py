"""Words beside marks find room, or are told to have none."""

import random
from itertools import combinations
from math import hypot

from evsyn.figures.label_places import Labelled, label_places
from evsyn.figures.shapes import Box

AREA = Box(0, 0, 400, 200)


def mark(x: float, y: float, r: float = 3) -> Box:
    return Box(x - r, y - r, x + r, y + r)


def test_a_label_stands_to_the_right_where_there_is_room_and_to_the_left_at_the_edge() -> None:
    (right,) = label_places([Labelled(mark(50, 100), 60, 10)], AREA, marks=[mark(50, 100)])
    assert right is not None
    assert right.box.left > 53
    assert right.leader is None
    (left,) = label_places([Labelled(mark(390, 100), 60, 10)], AREA, marks=[mark(390, 100)])
    assert left is not None
    assert left.box.right < 387


def test_a_label_keeps_clear_of_a_line_where_it_can() -> None:
    line = [(x, 100.0) for x in range(0, 400, 4)]
    spot = mark(200, 104)
    (place,) = label_places([Labelled(spot, 60, 10)], AREA, marks=[spot], lines=line)
    assert place is not None
    assert not any(
        place.box.left < x < place.box.right and place.box.top < y < place.box.bottom
        for x, y in line
    )


def test_crowded_labels_do_not_overlap_or_hide_marks_and_far_ones_have_a_line() -> None:
    draw = random.Random(5)
    marks = [mark(draw.uniform(100, 150), draw.uniform(80, 120)) for _ in range(16)]
    found = label_places([Labelled(spot, 24, 10) for spot in marks], AREA, marks=marks)
    boxes = [place.box for place in found if place is not None]
    assert len(boxes) == 16
    assert not any(one.overlaps(other) for one, other in combinations(boxes, 2))
    assert not any(box.overlaps(spot) for box in boxes for spot in marks)
    assert all(box.inside(AREA) for box in boxes)
    assert any(place.leader is not None for place in found if place is not None)


def test_a_label_stands_out_of_reach_of_other_marks_where_it_can() -> None:
    """Over another mark a label would pass for that one's; a line may run through it instead."""
    one, other = mark(250, 100), mark(335, 104)
    line = [(x, 96.0) for x in range(0, 400, 4)]
    labels = [Labelled(other, 150, 10), Labelled(one, 150, 10)]
    found = label_places(labels, AREA, marks=[one, other], lines=line)
    for place, own, stranger in zip(found, (other, one), (one, other), strict=True):
        assert place is not None
        assert gap(place.box, stranger) > max(9, gap(place.box, own))


def test_long_labels_of_marks_near_the_edge_lead_to_their_own() -> None:
    one, other = mark(250, 180), mark(345, 186)
    labels = [Labelled(spot, 170, 10) for spot in (other, one)]
    found = label_places(labels, AREA, marks=[one, other], anywhere=False)
    for place, own, stranger in zip(found, (other, one), (one, other), strict=True):
        assert place is not None
        assert gap(place.box, stranger) > 9
        assert place.leader is not None or gap(place.box, own) < gap(place.box, stranger)


def gap(box: Box, spot: Box) -> float:
    across = max(box.left - spot.right, spot.left - box.right, 0.0)
    return float(hypot(across, max(box.top - spot.bottom, spot.top - box.bottom, 0.0)))


def test_what_finds_no_room_is_told() -> None:
    spot = mark(50, 100)
    assert label_places([Labelled(spot, 500, 10)], AREA, marks=[spot]) == [None]
