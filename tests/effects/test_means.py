"""Effects of two means, against a library and hand arithmetic."""

import math

import numpy as np
import pytest
from scipy import stats
from statsmodels.stats.meta_analysis import effectsize_smd

from evsyn.effects.means import (
    mean_differences,
    read_two_means,
    standardised_mean_differences,
)

# Mean, SD, n of two arms: three rows of Luo M, et al. Medicine 2017;96:e7337, Fig 6.
ROWS = np.array(
    [(22, 11, 29, 33, 11, 29), (12, 8, 20, 21, 10, 20), (15.06, 9.04, 17, 20.25, 8.56, 16)]
)


def test_mean_difference_is_that_of_welch():
    for m1, s1, n1, m2, s2, n2 in ROWS:
        effects = mean_differences(read_two_means([m1], [s1], [n1], [m2], [s2], [n2]))
        second = stats.ttest_ind_from_stats(m1, s1, n1, m2, s2, n2, equal_var=False)
        found = effects.estimate[0] / math.sqrt(effects.variance[0])
        assert found == pytest.approx(second.statistic, rel=1e-12)
        assert effects.estimate[0] == m1 - m2


def test_standardised_difference_is_that_of_a_library():
    estimate, variance = effectsize_smd(*ROWS.T)
    effects = standardised_mean_differences(read_two_means(*ROWS.T))
    assert effects.estimate == pytest.approx(estimate, rel=1e-12)
    assert effects.variance == pytest.approx(variance, rel=1e-12)


def test_small_sample_factor_is_close_to_the_exact_one():
    # Hedges and Olkin 1985, chapter 5: the factor with gamma functions, of which 1 - 3 / (4 N - 9)
    # is the approximation.
    for n in (2, 5, 20, 400):
        arms = read_two_means([1.0], [1.0], [n], [0.0], [1.0], [n])
        df = 2 * n - 2
        exact = math.exp(math.lgamma(df / 2) - math.lgamma((df - 1) / 2)) / math.sqrt(df / 2)
        found = standardised_mean_differences(arms).estimate[0]
        assert found == pytest.approx(exact, abs=0.01)
        assert found < 1


REFUSED = [
    (([1], [0], [5], [1], [1], [5]), r"sd_1 must be above 0; see sd_1\[0\]"),
    (([1], [1], [5], [1], [-1], [5]), r"sd_2 must be above 0"),
    (([1], [1], [1], [1], [1], [5]), r"total_1 must be at least 2"),
    (([1], [1], [5], [1], [1], [5.5]), r"total_2 must be whole numbers"),
    (([1, 2], [1, 1], [5, 5], [1], [1, 1], [5, 5]), r"mean_1 and mean_2 must be equally long"),
    (([math.inf], [1], [5], [1], [1], [5]), r"mean_1 must hold finite numbers"),
]


@pytest.mark.parametrize(("rows", "message"), REFUSED)
def test_impossible_summaries_are_refused_by_name(rows, message):
    with pytest.raises(ValueError, match=message):
        read_two_means(*rows)
