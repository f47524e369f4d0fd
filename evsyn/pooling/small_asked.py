"""May small studies of a pool differ from its large ones: which test, or why there is none."""

import math
from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray
from scipy.special import expit

from evsyn.effects.two_arms import log_odds_ratios, read_two_arms
from evsyn.pooling.answer import Row
from evsyn.pooling.choose import triggers
from evsyn.pooling.compared import ComparisonAnswer
from evsyn.pooling.functions import pool_estimates
from evsyn.pooling.regression import Regression, RegressionStatus, regress_proportions
from evsyn.pooling.small_studies import SmallStudyLine, harbord, peters, peters_proportions
from evsyn.pooling.tables import PooledTable

#: Studies wanted. Sterne JAC et al. BMJ 2011;343:d4002.
LEAST_STUDIES = 10
#: Below this between-study variance of log odds ratios Harbord's test is asked, else Peters':
#: with more spread Harbord's calls far too many. Common practice, no source.
SMALL_TAU2 = 0.1
#: Wanted of a plot of small and large studies: share of variance between studies at most, and
#: largest over smallest size at least. Ioannidis JPA, Trikalinos TA. CMAJ 2007;176:1091-1096,
#: from memory, where the second is of variances.
MOST_I2, LEAST_SIZES_APART = 0.5, 4.0

Ints = NDArray[np.int64]


class NoSmallTest(StrEnum):
    """Why small studies are not tested against large ones."""

    BY_PLAN = "the plan forbids pooling"
    TOO_FEW = "fewer than ten studies"
    NO_RESULT = "no study has an event, or all patients have one"
    ONE_SIZE = "all studies are of one size"
    NOT_SETTLED = "events are few and the exact model did not settle"


@dataclass(frozen=True, slots=True)
class SmallShares:
    """Small studies of single proportions.

    Parameters
    ----------
    pooled : PooledTable
        The pool.
    line : SmallStudyLine or None
        Log-odds on one over the size, weighted by the size. Where events are few its ``t`` and
        ``p`` are ``nan``: the half event added to studies at 0% hangs on the size, so that far
        more than one in 20 would lie below 0.05 with nothing amiss.
    exact : Regression or None
        The same by the binomial-normal model of the counts.
    few_events : bool
        Whether a few-events trigger fires, so that the exact model is read.
    i2, sizes_apart : float
        Share of variance between studies in the headline row; largest over smallest total.
    reason : NoSmallTest or None
        Why there is no test.
    """

    pooled: PooledTable
    line: SmallStudyLine | None = None
    exact: Regression | None = None
    few_events: bool = False
    i2: float = float("nan")
    sizes_apart: float = float("nan")
    reason: NoSmallTest | None = None

    @property
    def reads_exact(self) -> bool:
        """Whether the exact line is the one to read."""
        fitted = self.exact is not None and self.exact.status is RegressionStatus.FITTED
        return self.few_events and fitted

    def rate_at(self, size: float) -> float:
        """Return the rate that the line to read gives studies of one size."""
        if self.reads_exact:
            assert self.exact is not None
            return float(expit(self.exact.at([1 / size]).centre))
        assert self.line is not None
        return float(expit(self.line.other + self.line.tested / size))


@dataclass(frozen=True, slots=True)
class SmallComparison:
    """Small studies of a comparison of two treatments.

    Parameters
    ----------
    answer : ComparisonAnswer
        The comparison.
    k : int
        Studies that inform an odds ratio.
    line : SmallStudyLine or None
        Harbord's line where the spread is small, else Peters'.
    tau2 : float
        Between-study variance of log odds ratios (restricted ML), by which the test is chosen.
    reason : NoSmallTest or None
        Why there is no test.
    """

    answer: ComparisonAnswer
    k: int
    line: SmallStudyLine | None = None
    tau2: float = float("nan")
    reason: NoSmallTest | None = None


def small_shares(pooled: PooledTable, *, level: float = 0.95) -> SmallShares:
    """Ask of a pool of single proportions whether small studies differ.

    Parameters
    ----------
    pooled : PooledTable
        The pool.
    level : float
        Two-sided level of the limits.

    Returns
    -------
    SmallShares
        Refused below ten studies. Egger's test is never asked: the standard error of log-odds
        hangs on the rate itself, so that they look lopsided without any bias (Hunter JP et al. J
        Clin Epidemiol 2014;67:897-903).
    """
    answer = pooled.answer
    events = np.array(answer.events, dtype=np.int64)
    total = np.array(answer.total, dtype=np.int64)
    reason = _no_shares(pooled, events, total)
    if reason is not None:
        return SmallShares(pooled, reason=reason)
    few = bool(triggers(events, total))
    line = peters_proportions(events, total)
    exact = regress_proportions(events, total, {"one_over_size": 1 / total}, level=level)
    if few and exact.status is not RegressionStatus.FITTED:
        return SmallShares(pooled, few_events=few, reason=NoSmallTest.NOT_SETTLED)
    return SmallShares(
        pooled,
        replace(line, t=math.nan, p=math.nan) if few else line,
        exact,
        few,
        answer.rows[Row.HEADLINE].i2_from_q,
        float(total.max() / total.min()),
    )


def _no_shares(pooled: PooledTable, events: Ints, total: Ints) -> NoSmallTest | None:
    if pooled.answer.crude is None and pooled.answer.k:
        return NoSmallTest.BY_PLAN
    if events.size < LEAST_STUDIES:
        return NoSmallTest.TOO_FEW
    if not 0 < events.sum() < total.sum():
        return NoSmallTest.NO_RESULT
    return NoSmallTest.ONE_SIZE if total.max() == total.min() else None


def small_comparison(answer: ComparisonAnswer) -> SmallComparison:
    """Ask of a comparison whether small studies show another odds ratio.

    Parameters
    ----------
    answer : ComparisonAnswer
        The comparison, whatever its own contrast: both tests are of odds ratios.

    Returns
    -------
    SmallComparison
        Refused below ten studies that inform an odds ratio. Egger's test is not asked: the log
        odds ratio and its standard error hang together.
    """
    sides = [(cell.first, cell.second) for cell in answer.table.cells]
    counts = [
        np.array([getattr(side[place], name) for side in sides], dtype=np.int64)
        for place in (0, 1)
        for name in ("events", "total")
    ]
    arms = read_two_arms(*counts) if sides else None
    informs = np.zeros(0, dtype=np.bool_) if arms is None else arms.informs_ratio
    k = int(informs.sum())
    if answer.choice is None and sides:
        return SmallComparison(answer, k, reason=NoSmallTest.BY_PLAN)
    if arms is None or k < LEAST_STUDIES:
        return SmallComparison(answer, k, reason=NoSmallTest.TOO_FEW)
    effects = log_odds_ratios(arms.take(informs))
    tau2 = pool_estimates(effects.estimate, effects.variance, between="restricted_ml").tau2
    line = (harbord if tau2 < SMALL_TAU2 else peters)(*counts)
    reason = NoSmallTest.ONE_SIZE if np.isnan(line.p) else None
    return SmallComparison(answer, k, None if reason else line, tau2, reason)
