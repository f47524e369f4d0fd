"""Cluster-robust standard errors: hand values, a general library, and their own definition."""

import numpy as np
import pytest
import statsmodels.api as sm

from evsyn.pooling.robust import robust_regression

# Seven cells of five studies, computed by another route than the project's; no printed source.
Y = np.array([-2.9, -2.5, -3.1, -2.0, -2.2, -3.4, -2.7])
V = np.array([0.3, 0.25, 0.45, 0.2, 0.22, 0.6, 0.35])
STUDY = [1, 1, 2, 3, 3, 4, 5]


def test_cells_of_five_studies(printed):
    found = robust_regression(Y, V, np.ones((7, 1)), STUDY, tau2=0.1)
    assert found.beta[0] == printed("-2.570404")
    assert found.se[0] == printed("0.246507")
    assert found.df[0] == printed("2.768695")
    assert np.isnan(found.p[0])  # fewer than four degrees of freedom: no P
    assert found.low[0] < found.beta[0] < found.high[0]
    assert found.clusters == 5


def test_one_row_a_study_is_the_leverage_corrected_variance():
    """With clusters of one row, the adjustment is HC2, which statsmodels computes."""
    rng = np.random.default_rng(7)
    x = np.column_stack([np.ones(12), rng.normal(size=12)])
    y, v = rng.normal(size=12), rng.uniform(0.1, 2, 12)
    other = sm.WLS(y, x, weights=1 / (v + 0.2)).fit(cov_type="HC2")
    found = robust_regression(y, v, x, range(12), tau2=0.2)
    assert found.beta == pytest.approx(other.params, rel=1e-10)
    assert found.covariance == pytest.approx(other.cov_params(), rel=1e-8)


def test_degrees_of_freedom_of_equal_clusters():
    """A mean of m equal clusters has m - 1 degrees of freedom, as a mean of m values has."""
    found = robust_regression(np.arange(8.0), np.ones(8), np.ones((8, 1)), [1, 1, 2, 2, 3, 3, 4, 4])
    assert found.df[0] == pytest.approx(3)
    means = np.arange(8.0).reshape(4, 2).mean(axis=1)
    assert found.se[0] == pytest.approx(means.std(ddof=1) / 2)


def test_the_variance_is_unbiased_where_the_working_model_holds():
    """The expected robust variance, by its definition, is the true one."""
    rng = np.random.default_rng(11)
    v = rng.uniform(0.1, 1.5, 9)
    clusters = [1, 1, 1, 2, 2, 3, 4, 5, 5]
    x = np.column_stack([np.ones(9), rng.normal(size=9)])
    drawn = [
        robust_regression(rng.normal(size=9) * np.sqrt(v), v, x, clusters).covariance
        for _ in range(4000)
    ]
    true = np.linalg.inv(x.T @ (x / v[:, None]))
    error = np.std(drawn, axis=0) / np.sqrt(4000)
    assert np.all(np.abs(np.mean(drawn, axis=0) - true) < 4 * error)


def test_what_one_cluster_alone_tells_has_no_error():
    """All rows of the first cluster, and no other, stand at the level: their noise is not seen."""
    rng = np.random.default_rng(5)
    clusters = [0, 0, 0, *np.repeat(range(1, 9), 2)]
    level, x = np.array(clusters) == 0, rng.normal(size=19)
    design = np.column_stack([np.ones(19), x, level])
    found = robust_regression(rng.normal(size=19), np.ones(19), design, clusters)
    for values in (found.se, found.df, found.t, found.p, found.low, found.high):
        assert np.isnan(values[2])
        assert np.isfinite(values[:2]).all()
    two = [*clusters[:2], 9, *clusters[3:]]
    assert np.isfinite(robust_regression(x, np.ones(19), design, two).se).all()


@pytest.mark.parametrize("apart", [1e2, 1e5, 1e7])
def test_small_variances_are_not_taken_for_nothing(apart):
    """One row of each cluster is far more precise: the expected variance is still the true one."""
    v = np.tile([1.0, apart], 6) / apart
    rng = np.random.default_rng(2)
    drawn = [
        robust_regression(
            rng.normal(size=12) * np.sqrt(v), v, np.ones((12, 1)), np.repeat(range(6), 2)
        ).covariance[0, 0]
        for _ in range(400)
    ]
    true = 1 / (1 / v).sum()
    assert np.mean(drawn) == pytest.approx(true, abs=4 * np.std(drawn) / 20)


@pytest.mark.parametrize(
    ("design", "clusters", "message"),
    [
        (np.ones((7, 1)), [1] * 7, "1 clusters cannot tell 1 coefficients"),
        (np.ones((7, 2)), STUDY, "cannot tell 2 coefficients"),
        (np.ones((6, 1)), STUDY, "one row an effect"),
    ],
)
def test_what_is_refused(design, clusters, message):
    with pytest.raises(ValueError, match=message):
        robust_regression(Y, V, design, clusters)
