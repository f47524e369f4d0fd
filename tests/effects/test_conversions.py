"""Standard errors from what papers print, against worked examples in print."""

import numpy as np
import pytest
from scipy import stats

from evsyn.effects.conversions import common_sd, se_from_interval, se_from_p, small_group_df


def test_divisor_of_an_interval(printed):
    # Cochrane Handbook 5.1.0, section 7.7.3.2: 3.92 for 95%; 2.0639 and 4.128 for 25 patients.
    assert 1 / se_from_interval(0.0, 1.0) == printed("3.92")
    assert 1 / se_from_interval(0.0, 1.0, df=24) == printed("4.128")
    assert 1 / se_from_interval(0.0, 1.0, df=24) / 2 == printed("2.0639")


def test_standard_error_of_a_mean_difference_from_its_p_value(printed):
    # Cochrane Handbook 5.1.0, section 7.7.3.3: difference 3.8, P 0.008, 25 and 22 patients.
    se = se_from_p(3.8, 0.008, df=small_group_df(25, 22))
    assert 3.8 / se == printed("2.78")
    assert se == printed("1.37")
    # The Handbook goes on from 1.37 to an SD of 4.69 (from memory); unrounded it is 4.68.
    assert common_sd(1.37, 25, 22) == printed("4.69")
    assert common_sd(se, 25, 22) == printed("4.68")


def test_standard_error_of_a_risk_difference_from_its_p_value(printed):
    # Cochrane Handbook 5.1.0, section 7.7.7.2: P 0.008 gives Z 2.652; the last step, a difference
    # of 0.03 with standard error 0.011, is from memory.
    assert 0.03 / se_from_p(0.03, 0.008) == printed("2.652")
    assert se_from_p(0.03, 0.008) == printed("0.011")


# Altman DG, Bland JM. How to obtain the confidence interval from a P value. BMJ 2011;343:d2090,
# both examples (the numbers of the second read on a worked page): estimate, P, whether a ratio,
# z, standard error, limits.
FROM_P = [
    (17, 0.032, False, "2.141", "7.940", "1.4", "32.6"),
    (0.30, 0.034, True, "2.116569", "0.5688323", "0.1", "0.9"),
]


@pytest.mark.parametrize(("estimate", "p", "ratio", "z", "se", "low", "high"), FROM_P)
def test_published_interval_from_a_p_value_uses_an_approximate_quantile(
    printed, estimate, p, ratio, z, se, low, high
):
    # Their z is -0.862 + sqrt(0.743 - 2.404 log P), close to the quantile but not equal to it.
    approximate = -0.862 + np.sqrt(0.743 - 2.404 * np.log(p))
    value = np.log(estimate) if ratio else estimate
    back = np.exp if ratio else float
    assert approximate == printed(z)
    assert abs(value) / approximate == pytest.approx(float(se), abs=2e-3)
    theirs = value + np.array([-1.96, 1.96]) * abs(value) / approximate
    assert back(theirs[0]) == printed(low)
    assert back(theirs[1]) == printed(high)
    ours = se_from_p(estimate, p, ratio=ratio)
    assert ours == pytest.approx(abs(value) / stats.norm.isf(p / 2), rel=1e-12)
    assert ours == pytest.approx(float(se), rel=2e-3)


@pytest.mark.parametrize("df", [None, 5])
@pytest.mark.parametrize("ratio", [False, True])
@pytest.mark.parametrize("level", [0.9, 0.95])
def test_there_and_back(df, ratio, level):
    estimate, se = np.array([0.3, 1.9]), np.array([0.2, 0.4])
    reference = stats.norm() if df is None else stats.t(df)
    centre = np.log(estimate) if ratio else estimate
    half = reference.ppf((1 + level) / 2) * se
    low, high = centre - half, centre + half
    if ratio:
        low, high = np.exp(low), np.exp(high)
    assert se_from_interval(low, high, level=level, df=df, ratio=ratio) == pytest.approx(se)
    p = 2 * reference.sf(np.abs(centre) / se)
    assert se_from_p(estimate, p, df=df, ratio=ratio) == pytest.approx(se, rel=1e-9)


def test_t_is_for_groups_below_sixty():
    # Cochrane Handbook 5.1.0, section 7.7.3.2.
    assert small_group_df(59, 200) == 257
    assert small_group_df(200, 59) == 257
    assert small_group_df(60, 60) is None


REFUSED = [
    (lambda: se_from_interval(1, 1), "high must be above low"),
    (lambda: se_from_interval(-1, 1, ratio=True), "low of a ratio must be above 0"),
    (lambda: se_from_interval(0, np.inf), "high must hold finite numbers"),
    (lambda: se_from_interval(0, 1, df=0), "df must be at least 1"),
    (lambda: se_from_interval(0, 1, level=95), "level must lie between 0 and 1"),
    (lambda: se_from_p(1, 0), "p must lie between 0 and 1"),
    (lambda: se_from_p(1, 1), "p must lie between 0 and 1"),
    (lambda: se_from_p(1, np.nan), "p must lie between 0 and 1"),
    (lambda: se_from_p(0, 0.5), "estimate must differ from its null value"),
    (lambda: se_from_p(1, 0.5, ratio=True), "estimate must differ from its null value"),
    (lambda: se_from_p(-2, 0.5, ratio=True), "estimate of a ratio must be above 0"),
]


@pytest.mark.parametrize(("call", "message"), REFUSED)
def test_what_cannot_be_converted_is_refused(call, message):
    with pytest.raises(ValueError, match=message):
        call()
