"""Do the studies differ at all? The likelihood-ratio statistic, beside Cochran's Q."""

from dataclasses import dataclass

from numpy.typing import ArrayLike
from scipy.special import chdtrc, rel_entr

from evsyn.pooling.binomial_normal.counts import read_counts


@dataclass(frozen=True, slots=True)
class LikelihoodRatio:
    """Likelihood-ratio test that all studies share one proportion.

    Parameters
    ----------
    statistic : float
        Twice the log-likelihood of a proportion a study less that of one common proportion.
    df : int
        ``k - 1``.
    p : float
        Upper tail of chi-squared.
    """

    statistic: float
    df: int
    p: float


def likelihood_ratio_heterogeneity(events: ArrayLike, total: ArrayLike) -> LikelihoodRatio:
    """Test on the counts whether studies share one proportion; no half is added anywhere.

    Parameters
    ----------
    events, total : array_like of int, shape (k,)
        Patients with the event, and patients, of each study; at least two studies.

    Returns
    -------
    LikelihoodRatio
        Statistic 0 and p 1 where all events are 0 or all are full.

    Raises
    ------
    ValueError
        If the counts are impossible or there are fewer than two studies.

    References
    ----------
    McCullagh P, Nelder JA. Generalized Linear Models, 2nd ed. 1989, section 4.4 (deviance), from
    memory.
    """
    counts = read_counts(events, total)
    if counts.k < 2:
        raise ValueError(f"at least 2 studies are needed; got {counts.k}")
    x, n = counts.events, counts.total
    crude = x.sum() / n.sum()
    # Each study's pair of terms is formed as an entropy of counts, so that 0 log 0 is 0.
    gains = rel_entr(x, n * crude) + rel_entr(n - x, n * (1 - crude))
    statistic = max(0.0, 2 * float(gains.sum()))
    return LikelihoodRatio(statistic, counts.k - 1, float(chdtrc(counts.k - 1, statistic)))
