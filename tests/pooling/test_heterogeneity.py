"""Shares of variance between studies, against print."""

import numpy as np
import pytest
from scipy import stats

from evsyn import pool_estimates
from evsyn.pooling.heterogeneity import i2_from_q, i2_test_based_interval

# Hepatitis C reviews whose tables print Q, k, I2 and its interval.
NEPAL = "Hepatol Med Policy 2018, doi:10.1186/s41124-018-0039-2, Table 2"
PAKISTAN = "R Soc Open Sci 2018;5:180257, Table 4"
IRAN = "Sci Rep 2018;8:150, Table 4"

PRINTED = [
    (NEPAL, 1714.1, 15, "99.2", "99.0", "99.3"),
    (NEPAL, 668.83, 12, "98.4", "97.9", "98.7"),
    (NEPAL, 683.44, 28, "96.0", "95.1", "96.8"),
    (PAKISTAN, 17552.0, 148, "99.2", "99.1", "99.2"),
    (PAKISTAN, 294.3, 21, "93.2", "90.9", "94.9"),
    (PAKISTAN, 8680.5, 64, "99.3", "99.2", "99.3"),
    (PAKISTAN, 5666.9, 20, "99.7", "99.6", "99.7"),
    (PAKISTAN, 1181.9, 15, "98.8", "98.6", "99.0"),
    (IRAN, 56269.6, 122, "99.8", "99.8", "99.8"),
    (IRAN, 2615, 56, "97.9", "97.6", "98.1"),
    (IRAN, 9128, 70, "99.2", "99.2", "99.3"),
    (IRAN, 2293.6, 72, "96.9", "96.5", "97.3"),
    (IRAN, 520.6, 44, "91.7", "89.8", "93.3"),
    # Printed with Q = 217272.1, which gives 99.9: the decimal point has slipped one place.
    (IRAN + ", Q read as 21727.2", 21727.2, 208, "99.0", "99.0", "99.1"),
]


@pytest.mark.parametrize(("source", "q", "k", "i2", "low", "high"), PRINTED)
def test_i2_and_its_interval_agree_with_print(printed, source, q, k, i2, low, high):
    limits = i2_test_based_interval(q, k)
    assert 100 * i2_from_q(q, k - 1) == printed(i2)
    assert 100 * limits[0] == printed(low)
    assert 100 * limits[1] == printed(high)


def test_a_printed_q_with_a_slipped_decimal_point_does_not_give_its_i2(printed):
    assert 100 * i2_from_q(217272.1, 207) != printed("99.0")


def test_a_printed_limit_one_digit_off(printed):
    # Sci Rep 2018;8:150, Table 4, k = 127: 98.6 (98.5 to 98.8); the upper limit is 98.66.
    low, high = i2_test_based_interval(8786.2, 127)
    assert 100 * i2_from_q(8786.2, 126) == printed("98.6")
    assert 100 * low == printed("98.5")
    assert 100 * high == printed("98.7")


def test_mean_i2_of_seven_studies_that_share_one_true_value(printed):
    # von Hippel PT. BMC Med Res Methodol 2015;15:35 (journal from memory), abstract: k = 7, 0.124.
    chances = (np.arange(1_000_000) + 0.5) / 1_000_000
    q = stats.chi2.ppf(chances, 6)
    assert i2_from_q(q, 6).mean() == printed("0.124")


def test_i2_from_q_is_zero_up_to_its_expectation():
    assert i2_from_q([0.0, 5.0, 6.0, 12.0], 6).tolist() == [0, 0, 0, 0.5]


def test_interval_below_its_expectation_follows_the_small_q_formula():
    # Higgins and Thompson 2002, appendix A2: se of ln H is sqrt((1 - 1/(3 m^2)) / (2 m)), m = k-2.
    low, high = i2_test_based_interval(3.0, 7)
    se = np.sqrt((1 - 1 / (3 * 25)) / 10)
    assert low == 0
    assert high == pytest.approx(1 - np.exp(-2 * stats.norm.ppf(0.975) * se))


def test_interval_that_does_not_exist_is_nan_and_silent():
    low, high = i2_test_based_interval([0.0, 1.5, 3.0, 0.0], [1, 2, 2, 0])
    assert np.isnan(low).tolist() == [True, True, False, True]
    assert np.isnan(high).tolist() == [True, True, False, True]


def test_level_is_checked():
    with pytest.raises(ValueError, match=r"^level "):
        i2_test_based_interval(3.0, 7, level=95)


def test_i2_from_tau2_equals_i2_from_q_for_dersimonian_laird():
    # Higgins and Thompson 2002: an identity, whatever the data.
    pooled = pool_estimates([0.1, 0.9, -0.4, 1.8], [0.04, 0.2, 0.1, 0.05])
    assert pooled.i2 == pytest.approx(pooled.i2_from_q, rel=1e-12)
    assert pooled.p == pytest.approx(stats.chi2.sf(pooled.q, 3), rel=1e-12)
