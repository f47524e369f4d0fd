"""Effects of two arms of counts, against print, a library and hand arithmetic."""

import math

import numpy as np
import pytest
from scipy import stats
from statsmodels.stats.contingency_tables import Table2x2
from statsmodels.stats.meta_analysis import effectsize_2proportions

from evsyn.effects.two_arms import (
    TWO_ARM_EFFECTS,
    log_odds_ratios,
    log_risk_ratios,
    observed_less_expected,
    peto_log_odds_ratios,
    read_two_arms,
    risk_differences,
)

TABLES = [(20, 100, 25, 100), (2, 4, 2, 4), (7, 295, 24, 423), (505, 88391, 499, 88391)]


@pytest.mark.parametrize("table", TABLES)
def test_ratios_are_those_of_a_library(table):
    a, n1, c, n2 = table
    arms, second = read_two_arms([a], [n1], [c], [n2]), Table2x2([[a, n1 - a], [c, n2 - c]])
    odds, risk = log_odds_ratios(arms), log_risk_ratios(arms)
    assert odds.estimate[0] == pytest.approx(second.log_oddsratio, rel=1e-9, abs=1e-12)
    assert odds.variance[0] == pytest.approx(second.log_oddsratio_se**2, rel=1e-9)
    assert risk.estimate[0] == pytest.approx(second.log_riskratio, rel=1e-9, abs=1e-12)
    assert risk.variance[0] == pytest.approx(second.log_riskratio_se**2, rel=1e-9)


def test_difference_and_its_variance_are_those_of_a_library():
    columns = np.array(TABLES, dtype=float).T
    estimate, variance = effectsize_2proportions(*columns, statistic="diff")
    ours = risk_differences(read_two_arms(*columns))
    assert ours.estimate == pytest.approx(estimate, rel=1e-9, abs=1e-15)
    assert ours.variance == pytest.approx(variance, rel=1e-9)


def test_odds_ratio_and_risk_ratio_of_two_in_four_against_two_in_four(printed):
    # statsmodels 0.15.0, stats/tests/test_contingency_tables.py, Test2x2_1.
    arms = read_two_arms([2], [4], [2], [4])
    for effects, low, high in [
        (log_odds_ratios(arms), "0.063", "15.988"),
        (log_risk_ratios(arms), "0.250", "3.998"),
    ]:
        half = stats.norm.ppf(0.975) * np.sqrt(effects.variance[0])
        assert np.exp(effects.estimate[0]) == printed("1.000")
        assert np.exp(-half) == printed(low)
        assert np.exp(half) == printed(high)
    assert np.sqrt(log_odds_ratios(arms).variance[0]) == printed("1.414")


def test_measures_of_a_teaching_table(printed):
    # BMJ Nutrition, Prevention & Health, teaching table: stroke 20 of 100 against 25 of 100.
    arms = read_two_arms([20], [100], [25], [100])
    risk_ratio = math.exp(log_risk_ratios(arms).estimate[0])
    assert risk_ratio == printed("0.8")
    assert 1 - risk_ratio == printed("0.2")
    assert -risk_differences(arms).estimate[0] == pytest.approx(0.05)
    # The table prints an odds ratio of 0.76, from odds already rounded to 0.25 and 0.33.
    odds_ratio = math.exp(log_odds_ratios(arms).estimate[0])
    assert odds_ratio == pytest.approx(0.75)
    assert odds_ratio != printed("0.76")


def test_half_goes_to_all_four_cells_of_a_study_with_an_empty_one_and_of_no_other():
    # Cochrane Handbook 5.1.0, section 9.2.2.2: half to each cell, so denominators grow by 1. A
    # support page on zero cells (JBI) says so too, but writes 1.5 of 100.5 against 0.5 of 100.5.
    arms = read_two_arms([1, 3], [100, 50], [0, 4], [100, 60])
    risk = log_risk_ratios(arms)
    assert risk.corrected.tolist() == [True, False]
    assert math.exp(risk.estimate[0]) == pytest.approx((1.5 / 101) / (0.5 / 101))
    assert risk.variance[0] == pytest.approx(1 / 1.5 - 1 / 101 + 1 / 0.5 - 1 / 101)
    assert risk.variance[0] != pytest.approx(1 / 1.5 - 1 / 100.5 + 1 / 0.5 - 1 / 100.5, rel=1e-6)
    assert math.exp(risk.estimate[1]) == pytest.approx((3 / 50) / (4 / 60))
    assert log_odds_ratios(arms).estimate[0] == pytest.approx(
        math.log(1.5 / 99.5) - math.log(0.5 / 100.5)
    )


@pytest.mark.parametrize("table", [(0, 9, 2, 8), (9, 9, 2, 8), (3, 9, 0, 8), (3, 9, 8, 8)])
def test_any_empty_cell_is_corrected_in_ratios_and_none_of_these_in_differences(table):
    arms = read_two_arms(*[[value] for value in table])
    assert log_odds_ratios(arms).corrected.all()
    assert log_risk_ratios(arms).corrected.all()
    assert not risk_differences(arms).corrected.any()
    assert not peto_log_odds_ratios(arms).corrected.any()
    assert np.all(np.isfinite(peto_log_odds_ratios(arms).estimate))


@pytest.mark.parametrize("table", [(0, 10, 10, 10), (0, 27, 0, 26), (10, 10, 10, 10)])
def test_a_difference_of_variance_zero_keeps_its_value_and_takes_its_variance_from_halves(table):
    a, n1, c, n2 = table
    difference = risk_differences(read_two_arms([a], [n1], [c], [n2]))
    p, q = (a + 0.5) / (n1 + 1), (c + 0.5) / (n2 + 1)
    assert difference.estimate[0] == a / n1 - c / n2
    assert difference.variance[0] == pytest.approx(p * (1 - p) / (n1 + 1) + q * (1 - q) / (n2 + 1))
    assert difference.corrected.all()


def test_observed_less_expected_is_hypergeometric():
    a, n1, c, n2 = 7, 40, 15, 55
    difference, variance = observed_less_expected(read_two_arms([a], [n1], [c], [n2]))
    second = stats.hypergeom(n1 + n2, a + c, n1)
    assert difference[0] == pytest.approx(a - second.mean(), rel=1e-12)
    assert variance[0] == pytest.approx(second.var(), rel=1e-12)


def test_studies_without_an_event_or_with_events_only_do_not_inform_a_ratio():
    arms = read_two_arms([0, 5, 0, 5], [5, 5, 5, 5], [0, 7, 7, 0], [7, 7, 7, 7])
    assert arms.informs_ratio.tolist() == [False, False, True, True]
    difference, variance = observed_less_expected(arms)
    assert difference[:2].tolist() == [0, 0]
    assert variance[:2].tolist() == [0, 0]


@pytest.mark.parametrize("name", TWO_ARM_EFFECTS)
def test_a_million_million_patients_and_one_patient(name):
    arms = read_two_arms([10**11, 1], [10**12, 1], [10**11, 0], [10**12, 1])
    effects = TWO_ARM_EFFECTS[name](arms)
    assert np.all(np.isfinite(effects.estimate))
    assert np.all(effects.variance > 0)
    assert effects.estimate[0] == pytest.approx(0, abs=1e-12)


REFUSED = [
    (([3], [2], [1], [2]), r"events_1 must not exceed total_1; see events_1\[0\]"),
    (([1], [2], [3], [2]), r"events_2 must not exceed total_2; see events_2\[0\]"),
    (([1], [0], [0], [2]), r"total_1 must be at least 1"),
    (([1, 1], [2, 2], [1], [2]), r"events_1 and events_2 must be equally long; got 2 events_1, 1"),
    (([1], [2], [1.5], [2]), r"events_2 must be whole numbers"),
    (([1], [2], [-1], [2]), r"events_2 must not be negative"),
    (([1], [2], [math.nan], [2]), r"events_2 must hold finite numbers"),
]


@pytest.mark.parametrize(("counts", "message"), REFUSED)
def test_impossible_counts_are_refused_by_name(counts, message):
    with pytest.raises(ValueError, match=message):
        read_two_arms(*counts)
