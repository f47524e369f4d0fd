"""Absolute effects and numbers needed to treat, against worked examples in print."""

import math

import pytest

from evsyn.effects.absolute import Direction, NumberNeeded, absolute_effect, number_needed

RATIOS = pytest.mark.parametrize("contrast", ["risk_ratio", "odds_ratio"])


def effect(ratio, baseline, contrast, **options):
    return absolute_effect(ratio, ratio, ratio, baseline=baseline, contrast=contrast, **options)


@pytest.mark.parametrize(
    ("contrast", "ratio", "fewer", "needed"),
    [
        # Cochrane Handbook 5.1.0, sections 12.5.4.2 and 12.5.4.3; baseline risk 0.3.
        ("risk_ratio", 0.92, "24", 42),
        ("odds_ratio", 0.73, "62", 17),
    ],
)
def test_handbook_examples(printed, contrast, ratio, fewer, needed):
    found = effect(ratio, 0.3, contrast)
    assert -found.per_1000 == printed(fewer)
    assert found.needed == NumberNeeded(needed, Direction.BENEFIT)


def test_handbook_wording_of_ratios_and_differences(printed):
    # Cochrane Handbook 5.1.0: RR 0.75 is 25% fewer (12.5.1), RR 3 is 200% more (9.2.2.2), a risk
    # difference of -0.133 is 133 fewer per 1,000 (12.5.4). At a baseline of 10%, 25% fewer is 25.
    assert -effect(0.75, 0.1, "risk_ratio").per_1000 == printed("25")
    assert effect(3.0, 0.1, "risk_ratio").per_1000 == printed("200")
    found = effect(1 - 0.133 / 0.5, 0.5, "risk_ratio")
    assert -found.per_1000 == printed("133")


def test_one_in_twenty_is_twenty_and_not_twenty_one():
    # BMJ Nutrition, Prevention & Health, teaching table: 20% against 25%, number needed 20. As
    # floats 0.25 less 0.2 is slightly below 0.05.
    assert number_needed(0.2 - 0.25).number == 20
    assert number_needed(-1 / 3).number == 3
    assert number_needed(-0.3334).number == 3
    assert number_needed(-0.3332).number == 4


@RATIOS
def test_limits_go_through_infinity_where_the_ratio_spans_one(contrast):
    # Altman DG. BMJ 1998;317:1309-1312: number needed to benefit, through infinity, to harm.
    found = absolute_effect(0.8, 0.6, 1.2, baseline=0.2, contrast=contrast)
    assert found.through_infinity
    assert found.needed_at_low.direction is Direction.BENEFIT
    assert found.needed_at_high.direction is Direction.HARM
    assert found.risk_low < found.risk < 0.2 < found.risk_high
    clear = absolute_effect(0.8, 0.6, 0.9, baseline=0.2, contrast=contrast)
    assert not clear.through_infinity
    assert clear.needed_at_high.direction is Direction.BENEFIT
    assert clear.needed_at_low.number < clear.needed.number < clear.needed_at_high.number


@RATIOS
def test_a_ratio_of_one_has_no_number(contrast):
    found = effect(1.0, 0.37, contrast)
    assert found.per_1000 == 0
    assert found.needed == NumberNeeded(math.inf, Direction.NEITHER)
    assert not found.through_infinity


@RATIOS
def test_more_may_be_better(contrast):
    assert effect(1.5, 0.2, contrast).needed.direction is Direction.HARM
    assert effect(1.5, 0.2, contrast, better="more").needed.direction is Direction.BENEFIT


def test_a_risk_ratio_is_cut_at_certainty_and_an_odds_ratio_never_needs_it():
    cut = absolute_effect(2.0, 1.2, 4.0, baseline=0.4, contrast="risk_ratio")
    assert cut.cut
    assert (cut.risk, cut.risk_high) == (pytest.approx(0.8), 1)
    uncut = absolute_effect(2.0, 1.2, 4.0, baseline=0.4, contrast="odds_ratio")
    assert not uncut.cut
    assert uncut.risk == pytest.approx((2 * 4 / 6) / (1 + 2 * 4 / 6))


@RATIOS
def test_open_limits(contrast):
    found = absolute_effect(1.0, 0.0, math.inf, baseline=0.1, contrast=contrast)
    assert (found.risk_low, found.risk_high) == (0, 1)
    assert found.needed_at_low.number == 10
    assert found.needed_at_high.number == 2


REFUSED = [
    ({"baseline": 0}, "baseline must lie between 0 and 1"),
    ({"baseline": 5}, "baseline must lie between 0 and 1"),
    ({"contrast": "risk_difference"}, "contrast 'risk_difference' is not known"),
    ({"better": "less"}, "better 'less' is not known"),
    ({"low": 0.95}, "must rise from 0"),
    ({"low": -0.1}, "must rise from 0"),
    ({"high": math.nan}, "must rise from 0"),
]


@pytest.mark.parametrize(("change", "message"), REFUSED)
def test_what_makes_no_sense_is_refused(change, message):
    usual = {"estimate": 0.9, "low": 0.8, "high": 1.1, "baseline": 0.1, "contrast": "risk_ratio"}
    with pytest.raises(ValueError, match=message):
        absolute_effect(**{**usual, **change})


def test_a_difference_beyond_certainty_is_refused():
    with pytest.raises(ValueError, match="risk_difference must lie between -1 and 1"):
        number_needed(-1.5)
