"""Which row of a comparison is read, and why. The limits themselves are this package's own."""

import pytest

from evsyn import pool_comparisons
from evsyn.pooling.comparison_choice import (
    ComparisonReason,
    ComparisonRow,
    PetoLimit,
    choose_comparison_row,
)

ORDINARY = ([20, 15, 30], [100, 90, 120], [25, 20, 33], [100, 95, 118])
RARE = ([1, 0, 3], [100, 90, 120], [4, 2, 6], [100, 95, 118])
VERY_RARE = ([2, 1, 3], [500, 480, 600], [2, 2, 3], [510, 470, 610])


def flipped(counts):
    x_1, n_1, x_2, n_2 = counts
    return (
        [n - x for x, n in zip(x_1, n_1, strict=True)],
        n_1,
        [n - x for x, n in zip(x_2, n_2, strict=True)],
        n_2,
    )


def test_ordinary_events_read_restricted_ml_with_a_floor():
    choice = choose_comparison_row(*ORDINARY)
    assert choice.row is ComparisonRow.RESTRICTED_ML
    assert choice.reasons == (ComparisonReason.ORDINARY,)
    pooled = pool_comparisons(*ORDINARY, **choice.options)
    assert (pooled.between, pooled.interval) == ("restricted_ml", "hartung_knapp_floor")
    assert pooled.contrast == "risk_ratio"
    assert choose_comparison_row(*ORDINARY, contrast="risk_difference").options["contrast"] == (
        "risk_difference"
    )


@pytest.mark.parametrize("counts", [RARE, flipped(RARE)])
@pytest.mark.parametrize("contrast", ["risk_ratio", "risk_difference"])
def test_rare_events_read_the_odds_ratio_of_mantel_and_haenszel(counts, contrast):
    choice = choose_comparison_row(*counts, contrast=contrast)
    assert choice.row is ComparisonRow.MANTEL_HAENSZEL
    assert choice.reasons == (ComparisonReason.RARE,)
    pooled = pool_comparisons(*counts, **choice.options)
    assert (pooled.model, pooled.contrast) == ("mantel_haenszel", "odds_ratio")
    assert "half_added_in_sums" not in pooled.notes


def test_one_rare_arm_is_enough():
    # 4 of 100 in one arm, 30 of 100 in the other.
    counts = ([1, 1, 2], [30, 30, 40], [10, 9, 11], [30, 30, 40])
    assert choose_comparison_row(*counts).row is ComparisonRow.MANTEL_HAENSZEL
    # At 5% itself it is not rare.
    at_limit = ([1, 1, 3], [30, 30, 40], [10, 9, 11], [30, 30, 40])
    assert choose_comparison_row(*at_limit).row is ComparisonRow.RESTRICTED_ML


def test_an_arm_without_any_event_has_counts_and_no_ratio():
    choice = choose_comparison_row([0, 0, 0], [50] * 3, [3, 1, 2], [50] * 3)
    assert choice.row is None
    assert choice.reasons == (ComparisonReason.RARE, ComparisonReason.OPEN)
    assert choice.options == {}


def test_fewer_than_three_informative_studies_are_not_read():
    # Double-zero studies do not inform a ratio.
    counts = ([1, 2, 0, 0], [50] * 4, [3, 1, 0, 0], [50] * 4)
    choice = choose_comparison_row(*counts)
    assert (choice.row, choice.reasons) == (None, (ComparisonReason.TOO_FEW,))
    assert choose_comparison_row([], [], [], []).row is None


def test_peto_is_kept_to_its_three_conditions():
    assert choose_comparison_row(*VERY_RARE).peto_limits == ()
    x_1, n_1, x_2, n_2 = VERY_RARE
    unbalanced = choose_comparison_row(x_1, n_1, x_2, [510, 470, 901])
    assert unbalanced.peto_limits == (PetoLimit.UNBALANCED,)
    assert choose_comparison_row(x_1, n_1, x_2, [510, 470, 900]).peto_limits == ()
    # 0.9% in one arm is not enough where the other has 1.2%.
    one_arm = choose_comparison_row([3, 3, 3], [330] * 3, [4, 4, 4], [330] * 3)
    assert one_arm.peto_limits == (PetoLimit.NOT_RARE,)
    large = choose_comparison_row([6, 4, 5], n_1, [1, 2, 3], n_2)
    assert large.peto_limits == (PetoLimit.LARGE,)
    assert choose_comparison_row([3, 4, 4], n_1, x_2, n_2).peto_limits == ()
    common = choose_comparison_row(*ORDINARY)
    assert common.peto_limits == (PetoLimit.NOT_RARE,)
    assert PetoLimit.LARGE in choose_comparison_row([0, 0], [9, 9], [1, 2], [9, 9]).peto_limits


def test_flipping_the_event_changes_no_choice():
    for counts in (ORDINARY, RARE, VERY_RARE):
        one, other = choose_comparison_row(*counts), choose_comparison_row(*flipped(counts))
        assert (one.row, one.reasons, one.peto_limits) == (
            other.row,
            other.reasons,
            other.peto_limits,
        )


def test_unknown_contrast_is_refused():
    with pytest.raises(ValueError, match="contrast 'rr' is not known"):
        choose_comparison_row(*ORDINARY, contrast="rr")
