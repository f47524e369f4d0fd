"""Two data sets every textbook pools, and what is printed of them."""

import numpy as np
import pytest

from evsyn import pool_estimates
from evsyn.pooling.given_tau import summary_at_tau

# Thirteen trials of BCG vaccine: Colditz GA et al. JAMA 1994;271:698-702. Cases and totals,
# vaccinated then control, as in several public listings.
BCG = np.array(
    [
        (4, 123, 11, 139),
        (6, 306, 29, 303),
        (3, 231, 11, 220),
        (62, 13598, 248, 12867),
        (33, 5069, 47, 5808),
        (180, 1541, 372, 1451),
        (8, 2545, 10, 629),
        (505, 88391, 499, 88391),
        (29, 7499, 45, 7277),
        (17, 1716, 65, 1665),
        (186, 50634, 141, 27338),
        (5, 2498, 3, 2341),
        (27, 16913, 29, 17854),
    ]
)

# Nine trials of diuretics in pre-eclampsia: Collins R et al. BMJ 1985;290:17-23; from memory.
PRE_ECLAMPSIA = np.array(
    [
        (14, 131, 14, 136),
        (21, 385, 17, 134),
        (14, 57, 24, 48),
        (6, 38, 18, 40),
        (12, 1011, 35, 760),
        (138, 1370, 175, 1336),
        (15, 506, 20, 524),
        (6, 108, 2, 103),
        (65, 153, 40, 102),
    ]
)


def log_odds_ratio(table):
    a, n1, c, n2 = table.T
    b, d = n1 - a, n2 - c
    return np.log(a * d / (b * c)), 1 / a + 1 / b + 1 / c + 1 / d


def log_risk_ratio(table):
    a, n1, c, n2 = table.T
    return np.log(a * n2 / (c * n1)), 1 / a - 1 / n1 + 1 / c - 1 / n2


def test_bcg_risk_ratio_by_dersimonian_laird(printed):
    # Colditz 1994, abstract: 0.49 (0.34 to 0.70); result from memory.
    pooled = pool_estimates(*log_risk_ratio(BCG))
    assert np.exp(pooled.estimate) == printed("0.49")
    assert np.exp(pooled.low) == printed("0.34")
    assert np.exp(pooled.high) == printed("0.70")


def test_bcg_log_risk_ratio_by_restricted_ml(printed):
    # Viechtbauer W. J Stat Softw 2010;36(3), worked example; from memory.
    pooled = pool_estimates(*log_risk_ratio(BCG), between="restricted_ml")
    assert pooled.tau2 == printed("0.3132")
    assert pooled.estimate == printed("-0.7145")
    assert pooled.se_on_scale == printed("0.1798")
    assert pooled.low == printed("-1.0669")
    assert pooled.high == printed("-0.3622")
    assert pooled.q == printed("152.2330")
    assert 100 * pooled.i2 == printed("92.22")


def test_bcg_q_profile_interval(printed):
    # Same worked example; from memory.
    pooled = pool_estimates(*log_risk_ratio(BCG), between="restricted_ml")
    assert pooled.tau2_low == printed("0.1197")
    assert pooled.tau2_high == printed("1.1115")


def test_bcg_log_odds_ratio_with_no_spread_and_by_ml(printed):
    # van Houwelingen HC, Arends LR, Stijnen T. Stat Med 2002;21:589-624; results from memory.
    effects = log_odds_ratio(BCG)
    common = summary_at_tau(*effects, 0.0)
    assert common.estimate == printed("-0.436")
    assert common.se == printed("0.042")
    pooled = pool_estimates(*effects, between="ml")
    assert pooled.estimate == printed("-0.742")
    assert pooled.se_on_scale == printed("0.178")
    assert pooled.tau2 == printed("0.302")


def test_pre_eclampsia_common_effect(printed):
    # Hardy RJ, Thompson SG. Stat Med 1996;15:619-629; Biggerstaff BJ, Tweedie RL. Stat Med
    # 1997;16:753-768; results from memory.
    common = summary_at_tau(*log_odds_ratio(PRE_ECLAMPSIA), 0.0)
    assert np.exp(common.estimate) == printed("0.67")
    assert np.exp(common.estimate - 1.96 * common.se) == printed("0.56")
    assert np.exp(common.estimate + 1.96 * common.se) == printed("0.80")


def test_pre_eclampsia_random_effects(printed):
    # Same papers; from memory.
    pooled = pool_estimates(*log_odds_ratio(PRE_ECLAMPSIA))
    assert pooled.q == printed("27.3")
    assert pooled.tau2 == printed("0.23")
    assert np.exp(pooled.estimate) == printed("0.60")
    assert np.exp(pooled.low) == printed("0.40")
    assert np.exp(pooled.high) == printed("0.89")
    assert pool_estimates(*log_odds_ratio(PRE_ECLAMPSIA), between="ml").tau2 == printed("0.24")


@pytest.mark.parametrize("interval", ["hartung_knapp", "hartung_knapp_floor"])
def test_two_studies_of_equal_precision(printed, interval):
    # Worked by hand: Q = 2 on 1 df, tau2 = (2 - 1) / 25 = 0.04, se = 0.2, t(1) = 12.706.
    pooled = pool_estimates([0.1, 0.5], [0.04, 0.04], interval=interval)
    assert pooled.tau2 == printed("0.040000")
    assert pooled.estimate == printed("0.300000")
    assert pooled.se_on_scale == printed("0.200000")
    assert pooled.low == printed("-2.241241")
    assert pooled.high == printed("2.841241")


def test_two_studies_of_equal_precision_ordinary_interval(printed):
    pooled = pool_estimates([0.1, 0.5], [0.04, 0.04])
    assert pooled.low == printed("-0.091993")
    assert pooled.high == printed("0.691993")
