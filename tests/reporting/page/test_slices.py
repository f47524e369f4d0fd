"""A tall drawing is cut between rows, and nothing of it is lost."""

from itertools import pairwise

from evsyn.figures.forest import forest_layout
from evsyn.reporting.forest import forest_of
from evsyn.reporting.page.drawings import WIDE
from evsyn.reporting.page.slices import SHEET, cuts, within
from tests.reporting.page.made import review

(SHEET_OF_FOREST,) = forest_layout(forest_of(review(), "perforation", "intent"), WIDE).pages


def test_a_short_drawing_is_left_whole():
    assert cuts(SHEET_OF_FOREST, 10_000) == (0, SHEET_OF_FOREST.height)


def test_no_slice_is_higher_than_asked_and_none_cuts_a_row():
    for most in (250, 400, SHEET):
        found = cuts(SHEET_OF_FOREST, most)
        assert (found[0], found[-1]) == (0, SHEET_OF_FOREST.height)
        assert all(0 < low - high <= most for high, low in pairwise(found[:-1]))
        inner = [text.box for group in SHEET_OF_FOREST.groups for text in group.texts]
        boxes = [box for box in inner if box.bottom - box.top < 100]
        for at in found[1:-1]:
            assert not [box for box in boxes if box.top < at - 2.5 and box.bottom > at + 2.5]


def test_a_band_heads_a_slice_where_one_is_in_reach():
    first = cuts(SHEET_OF_FOREST, 600)[1]
    tops = [group.shapes[0].box.top for group in SHEET_OF_FOREST.of("wash")]
    assert min(abs(first - top) for top in tops) < 0.01


def test_every_shape_stands_in_some_slice_and_every_row_in_one():
    slices = [within(SHEET_OF_FOREST, a, b) for a, b in pairwise(cuts(SHEET_OF_FOREST, 500))]
    kept = {shape for groups in slices for group in groups for shape in group.shapes}
    assert kept == {shape for group in SHEET_OF_FOREST.groups for shape in group.shapes}
    rows = [group.id for groups in slices for group in groups if group.id]
    assert len(rows) == len(set(rows))
    assert set(rows) == {group.id for group in SHEET_OF_FOREST.groups if group.id}
