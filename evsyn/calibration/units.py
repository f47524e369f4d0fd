"""Which counts of a unit the verdict flags, and how often units show them."""

from dataclasses import dataclass

import numpy as np
from scipy.special import logit

from evsyn.audit.predictive import knows_spread, mixed, predictive
from evsyn.audit.verdict import limits
from evsyn.calibration.layout import Layout
from evsyn.effects.arguments import Floats
from evsyn.pooling.answer import PoolAnswer
from evsyn.terms import Better

#: Even steps over the normal distribution of settings: as good as exact for chances of counts.
_REACH, _STEPS = 9.0, 721


@dataclass(frozen=True, slots=True)
class Flagged:
    """The counts called more, ``first_more`` and above, and fewer, ``last_fewer`` and below."""

    first_more: int
    last_fewer: int

    def shares(self, chances: Floats) -> tuple[float, float]:
        """Return the chance of being called more, and fewer, where counts have these chances."""
        more = float(chances[self.first_more :].sum())
        return more, float(chances[: self.last_fewer + 1].sum())


def flagged_counts(answer: PoolAnswer, cases: int) -> Flagged | None:
    """Return the counts that the verdict flags out of so many cases; ``None`` without a verdict.

    Parameters
    ----------
    answer : PoolAnswer
        A pool, as the tool makes it.
    cases : int
        The unit's number of cases.
    """
    read = answer.reading
    if read is None or not answer.show.verdict or not knows_spread(read):
        return None
    reach = limits(predictive(read, answer.k).pmf(cases))
    if reach.first_more is None and reach.last_fewer is None:
        return None
    return Flagged(
        cases + 1 if reach.first_more is None else reach.first_more,
        -1 if reach.last_fewer is None else reach.last_fewer,
    )


@dataclass(frozen=True, slots=True, eq=False)
class TrueChances:
    """True chances of 0, 1, ... events in a new unit of the layout's number of cases.

    Parameters
    ----------
    ordinary, doubled : ndarray
        In an ordinary unit, and in one at twice the unfavourable risk of the median setting;
        shape ``(cases + 1,)``.
    better : Better
        Which way the outcome should go.
    """

    ordinary: Floats
    doubled: Floats
    better: Better

    def shares(self, found: Flagged | None) -> tuple[float, float, float]:
        """Return the chances of an ordinary unit called more, and fewer, and a doubled one seen.

        Notes
        -----
        No unit is drawn: chances of flagged counts are summed, so the only error left is that of
        having drawn some reviews and not all.
        """
        if found is None:
            return 0.0, 0.0, 0.0
        more, fewer = found.shares(self.ordinary)
        return more, fewer, found.shares(self.doubled)[0 if self.better is Better.FEWER else 1]


def true_chances(layout: Layout) -> TrueChances:
    """Return the true chances of counts under a layout."""
    deviates = np.linspace(-_REACH, _REACH, _STEPS)
    weights = np.exp(-(deviates**2) / 2)
    cases = layout.unit_cases
    return TrueChances(
        ordinary=mixed(cases, layout.mu + layout.tau * deviates, weights / weights.sum()),
        doubled=mixed(cases, logit(np.array([layout.doubled])), np.ones(1)),
        better=layout.direction,
    )
