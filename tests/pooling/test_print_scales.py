"""Scales offered to match print: double arcsine, arcsine, raw proportions."""

import math

import numpy as np
import pytest

from evsyn import pool_estimates, pool_proportions
from evsyn.effects.proportions import freeman_tukey_effects
from evsyn.pooling.functions import pool_proportions_grid
from evsyn.pooling.grid import AnalysisGrid

PRINT_SCALES = ["arcsine", "freeman_tukey", "freeman_tukey_mean", "raw"]

# Computed by an independent route, no printed source: Q, tau2, centre in radians, pooled percentage
# with limits at the harmonic mean of sizes. Counts of the first: Tables 1 to 3 of a review of
# oesophageal stents, World J Gastroenterol 2016;22:7841; of the others: made-up, rare and common.
SECOND_ROUTE = {
    "overgrowth": (
        ([2, 0, 5, 1, 13, 19], [42, 17, 32, 55, 48, 56]),
        ("38.037508", "0.160077", "0.720501"),
        ("11.390905", "2.275933", "25.171120"),
    ),
    "rare": (
        ([0, 1, 0, 3, 2, 0, 5], [20, 45, 33, 120, 60, 15, 210]),
        ("1.562135", "0.000000", "0.324424"),
        ("1.444828", "0.366827", "2.984301"),
    ),
    "common": (
        ([20, 44, 33, 115, 60], [20, 45, 33, 120, 60]),
        ("4.612590", "0.003021", "2.843618"),
        ("98.839518", "96.578196", "99.990064"),
    ),
}


@pytest.mark.parametrize("name", SECOND_ROUTE)
def test_double_arcsine_pools(printed, name):
    counts, (q, tau2, centre), percent = SECOND_ROUTE[name]
    pooled = pool_proportions(*counts, scale="freeman_tukey")
    assert pooled.q == printed(q)
    assert pooled.tau2 == printed(tau2)
    assert pooled.estimate_on_scale == printed(centre)
    found = 100 * np.array([pooled.estimate, pooled.low, pooled.high])
    assert all(value == printed(text) for value, text in zip(found, percent, strict=True))


@pytest.mark.parametrize("name", SECOND_ROUTE)
def test_mean_of_angles_gives_the_same_proportions_and_a_quarter_of_the_spread(name):
    counts = SECOND_ROUTE[name][0]
    total = pool_proportions(*counts, scale="freeman_tukey")
    mean = pool_proportions(*counts, scale="freeman_tukey_mean")
    for field in ("estimate", "low", "high", "prediction_low", "prediction_high", "q", "i2"):
        assert getattr(mean, field) == pytest.approx(getattr(total, field), rel=1e-9, abs=1e-12)
    assert mean.tau2 == pytest.approx(total.tau2 / 4, rel=1e-9)
    assert mean.estimate_on_scale == pytest.approx(total.estimate_on_scale / 2)


# World J Gastroenterol 2016;22:7841, Table 3, random effects, from the counts of Tables 1 and 2 (a
# dash taken as 0 of 17). One row there mixes counts with percentages of another denominator, so
# what was pooled is not what is printed: neither line can be rebuilt from its own table.
OESOPHAGEAL = [
    ([2, 0, 5, 1, 13, 19], ("11.2", "3.7", "22.1"), ("11.4", "2.3", "25.2"), "82.2", "86.9"),
    ([3, 0, 1, 3, 1, 4], ("4.7", "2.5", "7.7"), ("4.3", "1.8", "7.5"), "0.0", "0.0"),
]


@pytest.mark.parametrize(("events", "theirs", "ours", "their_i2", "our_i2"), OESOPHAGEAL)
def test_printed_lines_that_their_own_tables_do_not_give(
    printed, events, theirs, ours, their_i2, our_i2
):
    pooled = pool_proportions(events, [42, 17, 32, 55, 48, 56], scale="freeman_tukey")
    found = 100 * np.array([pooled.estimate, pooled.low, pooled.high])
    assert all(value == printed(text) for value, text in zip(found, ours, strict=True))
    assert all(value != printed(text) for value, text in zip(found, theirs, strict=True))
    assert 100 * pooled.i2_from_q == printed(our_i2)
    assert (our_i2 == their_i2) == (100 * pooled.i2_from_q == printed(their_i2))


def test_a_printed_common_effect_that_its_own_table_does_not_give(printed):
    # The same table prints 12.3 (8.5 to 16.6) for one common effect; its counts give 13.0 (8.9 to
    # 17.7) at the harmonic mean of sizes.
    effects = freeman_tukey_effects([2, 0, 5, 1, 13, 19], [42, 17, 32, 55, 48, 56])
    common = pool_estimates(effects.estimate, effects.variance, model="common")
    scale = effects.scale_of(np.ones(6, dtype=bool))
    found = 100 * scale.back(np.array([common.estimate, common.low, common.high]))
    for value, ours, theirs in zip(
        found, ("13.0", "8.9", "17.7"), ("12.3", "8.5", "16.6"), strict=True
    ):
        assert value == printed(ours)
        assert value != printed(theirs)


@pytest.mark.parametrize("scale", PRINT_SCALES)
def test_the_record_says_that_the_scale_is_for_print(scale):
    counts = ([2, 3, 5], [42, 17, 32])
    pooled = pool_proportions(*counts, scale=scale)
    assert pooled.scale == scale
    assert "scale_to_match_print" in pooled.notes
    assert "half_added" not in pooled.notes
    assert 0 <= pooled.low <= pooled.estimate <= pooled.high <= 1
    assert "scale_to_match_print" not in pool_proportions(*counts).notes


@pytest.mark.parametrize("scale", PRINT_SCALES)
def test_equal_proportions_of_one_size_come_back(scale):
    pooled = pool_proportions([3, 3, 3], [20, 20, 20], scale=scale)
    assert pooled.estimate == pytest.approx(0.15, rel=1e-12)
    assert pooled.tau2 == 0


@pytest.mark.parametrize("scale", ["arcsine", "freeman_tukey", "freeman_tukey_mean"])
def test_ends_are_kept_as_counts(scale):
    pooled = pool_proportions([0, 0], [20, 30], scale=scale)
    assert (pooled.status, pooled.estimate, pooled.low) == ("all_zero", 0, 0)
    some = pool_proportions([0, 1, 20], [20, 30, 20], scale=scale)
    assert some.status == "pooled"
    assert some.corrected == ()
    assert math.isfinite(some.prediction_high)


def test_raw_refuses_a_study_at_an_end():
    with pytest.raises(ValueError, match="events must not be 0% or 100% of a study"):
        pool_proportions([0, 3], [20, 20], scale="raw")


def test_raw_limits_are_cut_at_zero():
    pooled = pool_proportions([1, 1, 9], [20, 25, 20], scale="raw")
    assert pooled.low == 0
    assert pooled.estimate_on_scale - 1.96 * pooled.se_on_scale < 0


def test_masked_studies_do_not_move_the_harmonic_mean():
    x, n = np.array([2, 3, 5, 400]), np.array([42, 17, 32, 900])
    mask = np.array([[True, True, True, False]])
    (masked,) = pool_proportions_grid(x, n, AnalysisGrid(("some",), mask), scale="freeman_tukey")
    assert masked.estimate == pool_proportions(x[:3], n[:3], scale="freeman_tukey").estimate
