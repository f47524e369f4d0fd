"""The exact model for single proportions: binomial counts, normal log-odds between studies."""

from evsyn.pooling.binomial_normal.heterogeneity import (
    LikelihoodRatio,
    likelihood_ratio_heterogeneity,
)
from evsyn.pooling.binomial_normal.one_sample import (
    BinomialNormalFit,
    fit_binomial_normal,
    fit_binomial_normal_at,
    population_mean,
)
from evsyn.pooling.binomial_normal.pool import pool_binomial_normal
from evsyn.pooling.binomial_normal.profile import (
    BinomialNormalProfile,
    largest_tau,
    profile_binomial_normal,
)

__all__ = [
    "BinomialNormalFit",
    "BinomialNormalProfile",
    "LikelihoodRatio",
    "fit_binomial_normal",
    "fit_binomial_normal_at",
    "largest_tau",
    "likelihood_ratio_heterogeneity",
    "pool_binomial_normal",
    "population_mean",
    "profile_binomial_normal",
]
