"""Grids of questions."""

import numpy as np
import pytest

from evsyn.pooling.grid import AnalysisGrid, by_level, join, leave_one_out, overall


def test_overall_holds_all():
    grid = overall(3)
    assert grid.labels == ("overall",)
    assert grid.mask.tolist() == [[True, True, True]]
    assert overall(0).k.tolist() == [0]


def test_levels_come_in_order_of_first_sight():
    grid = by_level(["b", "a", "b"])
    assert grid.labels == ("b", "a")
    assert grid.mask.tolist() == [[True, False, True], [False, True, False]]


def test_levels_named_are_shown_even_where_no_study_has_them():
    grid = by_level(["b", "a", "b"], ["a", "c"])
    assert grid.labels == ("a", "c")
    assert grid.k.tolist() == [1, 0]
    assert by_level([], ["a"]).mask.shape == (1, 0)
    assert by_level([], []).mask.shape == (0, 0)


def test_leave_one_out_leaves_each_out_once():
    grid = leave_one_out(["x", "y", "z"])
    assert grid.labels == ("x", "y", "z")
    assert np.array_equal(grid.mask, 1 - np.eye(3))


def test_grids_join_end_to_end():
    grid = join(overall(2), by_level(["a", "b"]))
    assert grid.labels == ("overall", "a", "b")
    assert grid.mask.tolist() == [[True, True], [True, False], [False, True]]


@pytest.mark.parametrize("grids", [(), (overall(2), overall(3))])
def test_grids_over_other_studies_do_not_join(grids):
    with pytest.raises(ValueError, match="same studies"):
        join(*grids)


@pytest.mark.parametrize(
    ("labels", "mask", "word"),
    [
        (("a",), np.ones((2, 3), dtype=bool), "labels"),
        (("a",), np.ones(3, dtype=bool), "mask"),
        (("a",), np.ones((1, 3)), "mask"),
    ],
)
def test_ill_formed_grid_is_refused(labels, mask, word):
    with pytest.raises(ValueError, match=rf"^{word} "):
        AnalysisGrid(labels, mask)
