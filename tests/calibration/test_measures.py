"""Measures of performance, by hand.

Formulas: Morris TP, White IR, Crowther MJ. Stat Med 2019;38:2074-2102, table 6, from memory.
"""

import math

import numpy as np
import pytest
from scipy.special import expit

from evsyn.calibration.measures import Intervals, mean_of, performance, share_of
from evsyn.calibration.result import Line


def test_a_mean_and_its_error():
    found = mean_of(np.array([1.0, 2.0, 6.0]))
    assert found.value == 3
    # Squares about 3: 4 + 1 + 9 = 14; 14 / (3 * 2) = 7 / 3.
    assert found.error == pytest.approx(math.sqrt(7 / 3))


def test_a_share_and_its_error():
    found = share_of(np.array([True, True, True, False]))
    assert (found.value, found.error) == (0.75, pytest.approx(math.sqrt(0.75 * 0.25 / 4)))


def test_nothing_measured_is_no_number():
    for found in (mean_of(np.array([])), share_of(np.array([], dtype=bool))):
        assert math.isnan(found.value)
        assert math.isnan(found.error)


def test_intervals_are_told_as_held_above_and_below_and_lost_answers_do_not_count():
    nan = math.nan
    found = performance(
        Line.EXACT,
        Intervals(
            np.array([-2.0, -1.0, -3.0, nan]),
            np.array([-2.5, -1.5, -3.5, nan]),
            np.array([-1.5, -0.5, -2.5, nan]),
        ),
        mu=-2.0,
    )
    assert found.reviews == 4
    assert found.no_answer.value == 0.25
    thirds = (found.coverage.value, found.above.value, found.below.value)
    assert thirds == (pytest.approx(1 / 3),) * 3
    assert found.bias_log_odds.value == pytest.approx(0)
    values = expit(np.array([-2.0, -1.0, -3.0]))
    assert found.bias.value == pytest.approx(values.mean() - expit(-2.0))
    widths = expit([-1.5, -0.5, -2.5]) - expit([-2.5, -1.5, -3.5])
    assert found.width.value == pytest.approx(widths.mean())
