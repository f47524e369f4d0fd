"""Words for levels compared."""

import math

from evsyn.pooling.differ import RobustPair
from evsyn.pooling.strata_test import Contrast
from evsyn.wording.ask_differ import pair_row, ratio, robust_row

LEVELS = {"old": "old device", "new": "new device"}


def test_a_level_without_an_event_has_no_ratio():
    nan = math.nan
    row = pair_row(Contrast("old", "new", nan, nan, nan, nan), LEVELS)
    assert row[0] == "old device / new device"
    assert row[1] == "does not exist"


def test_ratios_too_large_or_small_to_quote_are_bounded():
    assert ratio(20.0, -20.0, 0.0) == "over 1,000 (under 0.01 to 1.00)"


def test_few_degrees_of_freedom_give_no_p():
    row = robust_row(RobustPair("old", "new", 0.0, -1.0, 1.0, 3.2, math.nan), LEVELS)
    assert row[1:] == ("1.00 (0.37 to 2.72)", "3.2", "none given")


def test_what_one_study_alone_tells_is_said():
    nan = math.nan
    row = robust_row(RobustPair("old", "new", 0.5, nan, nan, nan, nan), LEVELS)
    assert row[1:] == ("one study alone tells it", "-", "none given")
