"""Mantel-Haenszel and Peto pooling of stratified tables, against print and a library."""

import math

import numpy as np
import pytest
from scipy import stats
from statsmodels.stats.contingency_tables import StratifiedTable

from evsyn import pool_comparisons
from evsyn.effects.two_arms import observed_less_expected, read_two_arms

# Doll R, Hill AB. BMJ 1950;2:739-748, smoking and lung cancer in men and women, as worked in
# Fagerland MW, Lydersen S, Laake P. Statistical Analysis of Contingency Tables (2017), chapter 10
# (values of the book's companion listing). Tables of two rows.
DOLL_HILL = [[[647, 622], [2, 27]], [[41, 28], [19, 32]]]

# statsmodels 0.15.0, stats/tests/test_contingency_tables.py, TestStratified1 to 3 (values there
# from an independent package); the third is the Berkeley admissions data.
SPARSE = [
    [[0, 0], [6, 5]],
    [[3, 0], [3, 6]],
    [[6, 2], [0, 4]],
    [[5, 6], [1, 0]],
    [[2, 5], [0, 0]],
]
ONE_ZERO = [
    [[20, 14], [10, 24]],
    [[15, 12], [3, 15]],
    [[3, 2], [3, 2]],
    [[12, 3], [7, 5]],
    [[1, 0], [3, 2]],
]
BERKELEY = [
    [[313, 512], [19, 89]],
    [[207, 353], [8, 17]],
    [[205, 120], [391, 202]],
    [[278, 139], [244, 131]],
    [[138, 53], [299, 94]],
    [[351, 22], [317, 24]],
]


def arms(tables):
    """Rows as arms; strata in which an arm has no patients hold no information."""
    cells = np.array([table for table in tables if all(map(sum, table))])
    return cells[:, 0, 0], cells[:, 0].sum(axis=1), cells[:, 1, 0], cells[:, 1].sum(axis=1)


def pooled(tables, contrast, model="mantel_haenszel"):
    return pool_comparisons(*arms(tables), contrast=contrast, model=model)


def agree(printed, found, texts):
    for value, text in zip((found.estimate, found.low, found.high), texts, strict=False):
        assert value == printed(text)


def test_doll_and_hill(printed):
    agree(printed, pooled(DOLL_HILL, "odds_ratio"), ("4.5239",))
    agree(printed, pooled(DOLL_HILL, "risk_ratio"), ("2.4751", "1.5831", "3.8698"))
    agree(printed, pooled(DOLL_HILL, "risk_difference"), ("0.3294", "0.2281", "0.4307"))
    agree(printed, pooled(DOLL_HILL, "odds_ratio", "common"), ("3.5563", "1.8365", "6.8866"))


def test_doll_and_hill_by_peto(printed):
    found = pooled(DOLL_HILL, "peto", "common")
    assert found.estimate == printed("3.7120")
    assert found.q == printed("2.822")
    assert found.p == printed("0.09297")
    # The test without correction is Peto's estimate over its standard error, squared.
    assert (found.estimate_on_scale / found.se_on_scale) ** 2 == printed("24.920")


def test_doll_and_hill_printed_interval_is_not_that_of_robins_breslow_greenland(printed):
    # The listing gives 2.3556 to 8.6880; the library's variance and ours give another interval,
    # which the three other data sets of this module confirm.
    found = pooled(DOLL_HILL, "odds_ratio")
    second = StratifiedTable([np.array(table) for table in DOLL_HILL]).oddsratio_pooled_confint()
    assert (found.low, found.high) == pytest.approx(second, rel=1e-9)
    assert found.low != printed("2.3556")
    assert found.high != printed("8.6880")


def test_doll_and_hill_printed_q_is_that_of_risk_differences(printed):
    # The listing gives 6.591 as Cochran's Q about the Mantel-Haenszel estimate: it is that of
    # risk differences, not of log odds ratios (4.932).
    assert pooled(DOLL_HILL, "risk_difference").q == printed("6.591")
    assert pooled(DOLL_HILL, "odds_ratio").q == printed("4.932")


STRATIFIED = {
    # Four of the five strata hold an empty cell.
    "sparse": (SPARSE, ("7", "1.026713", "47.725133"), "3.9286", "0.04747"),
    "one empty cell": (ONE_ZERO, ("3.5912", "1.781135", "7.240633"), "11.8852", "0.0005658"),
    "Berkeley": (BERKELEY, ("1.101879", "0.9402012", "1.2913602"), "1.3368", None),
}


@pytest.mark.parametrize("name", STRATIFIED)
def test_odds_ratios_of_strata_without_correction(printed, name):
    tables, texts, statistic, p = STRATIFIED[name]
    agree(printed, pooled(tables, "odds_ratio"), texts)
    # The test printed beside them takes half off the sum of observed less expected.
    difference, variance = observed_less_expected(read_two_arms(*arms(tables)))
    found = (abs(difference.sum()) - 0.5) ** 2 / variance.sum()
    assert found == printed(statistic)
    if p is not None:
        assert stats.chi2.sf(found, 1) == printed(p)


@pytest.mark.parametrize("tables", [DOLL_HILL, ONE_ZERO, BERKELEY])
def test_odds_and_risk_ratios_are_those_of_a_library(tables):
    second = StratifiedTable([np.array(table) for table in tables])
    found = pooled(tables, "odds_ratio")
    assert found.estimate == pytest.approx(second.oddsratio_pooled, rel=1e-12)
    assert found.se_on_scale == pytest.approx(second.logodds_pooled_se, rel=1e-12)
    assert (found.low, found.high) == pytest.approx(second.oddsratio_pooled_confint(), rel=1e-10)
    risk = pooled(tables, "risk_ratio")
    assert risk.estimate == pytest.approx(second.riskratio_pooled, rel=1e-12)


@pytest.mark.parametrize("contrast", ["odds_ratio", "risk_ratio", "risk_difference"])
def test_one_study_has_its_own_effect_and_variance(contrast):
    alone = pool_comparisons([7], [40], [15], [55], contrast=contrast, model="mantel_haenszel")
    own = pool_comparisons([7], [40], [15], [55], contrast=contrast, model="common")
    assert (alone.status, own.status) == ("one_study", "one_study")
    assert alone.estimate == pytest.approx(own.estimate, rel=1e-12)
    assert alone.se_on_scale == pytest.approx(own.se_on_scale, rel=1e-12)
    assert (alone.q, alone.df) == (pytest.approx(math.nan, nan_ok=True),) * 2


def test_the_weights_are_those_of_the_study_ratios():
    found = pooled(DOLL_HILL, "risk_ratio")
    a, n1, c, n2 = arms(DOLL_HILL)
    assert np.dot(found.weights, (a / n1) / (c / n2)) == pytest.approx(found.estimate, rel=1e-12)


def test_half_inside_the_sums_pulls_towards_no_difference():
    # Handbook-type advice is to add none; in print half is added. Same counts, both ways.
    counts = ([0, 1, 2], [300, 310, 290], [6, 7, 5], [300, 305, 295])
    options = {"contrast": "odds_ratio", "model": "mantel_haenszel"}
    none = pool_comparisons(*counts, **options)
    half = pool_comparisons(*counts, **options, zero_cells="half_in_sums")
    assert none.estimate < half.estimate < 1
    assert (none.notes, half.notes) == (("half_added_in_q",), ("half_added_in_sums",))
    assert none.corrected == half.corrected == (0,)
    a, n1, c, n2 = (np.array(column, dtype=float) for column in counts)
    by_hand = [(a * (n2 - c) / (n1 + n2)).sum() / ((n1 - a) * c / (n1 + n2)).sum()]
    a[0], c[0], n1[0], n2[0] = 0.5, 6.5, 301, 301
    by_hand += [(a * (n2 - c) / (n1 + n2)).sum() / ((n1 - a) * c / (n1 + n2)).sum()]
    assert [none.estimate, half.estimate] == pytest.approx(by_hand, rel=1e-12)
