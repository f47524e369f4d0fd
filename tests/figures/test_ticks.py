"""Axes end at round numbers."""

import pytest

from evsyn.figures.ticks import rounded_up


@pytest.mark.parametrize("least", [0.1, 1, 5])
@pytest.mark.parametrize("reach", [0.07, 0.3, 1, 7.3, 27, 99.9, 1234])
def test_the_end_holds_the_reach_in_few_round_steps(reach: float, least: float) -> None:
    end, step = rounded_up(reach, least_step=least, most_steps=6)
    assert end >= reach - 1e-9
    assert step >= least
    assert round(end / step, 6) in range(1, 7)
    assert f"{step:e}"[0] in "125"
    # One step finer would need more than six.
    assert step == least or end - step < reach


def test_whole_numbers_stay_whole() -> None:
    assert rounded_up(27, least_step=1, most_steps=6) == (30, 5)
    assert isinstance(rounded_up(27, least_step=1, most_steps=6)[0], int)
