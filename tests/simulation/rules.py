"""Which counts of a unit are flagged, by the tool's verdict and by three simpler rules."""

from enum import StrEnum

import numpy as np
from scipy import special, stats

from evsyn.audit.predictive import LITTLE_SPREAD, same_rate, student
from evsyn.audit.verdict import limits
from evsyn.calibration.units import Flagged, flagged_counts
from evsyn.effects.arguments import Floats
from evsyn.pooling.answer import PoolAnswer, Reading


class Rule(StrEnum):
    """How the range of counts is made from the row that is read."""

    TOOL = "tool"
    PLUG_IN = "plug_in"
    SAME_RATE = "same_rate"
    FIXED = "fixed"


def flagged(answer: PoolAnswer, cases: int, rule: Rule) -> Flagged:
    """Return the counts that a rule flags, out of so many cases.

    Parameters
    ----------
    answer : PoolAnswer
        A pool, as the tool makes it.
    cases : int
        The unit's number of cases.
    rule : Rule
        ``TOOL`` is the verdict. ``PLUG_IN`` takes the spread as it was estimated, also where it
        is next to nothing. ``SAME_RATE`` asks what units would show if all shared the typical
        rate, with the doubt about that rate. ``FIXED`` takes the typical rate as known. All flag
        by inclusive tails of 2.5% a side.

    Notes
    -----
    Where the tool gives no verdict, no rule flags anything.
    """
    nothing = Flagged(cases + 1, -1)
    if answer.reading is None or not answer.show.verdict:
        return nothing
    if rule is Rule.TOOL:
        return flagged_counts(answer, cases) or nothing
    reach = limits(_chances(answer.reading, answer.k, cases, rule))
    return Flagged(
        nothing.first_more if reach.first_more is None else reach.first_more,
        nothing.last_fewer if reach.last_fewer is None else reach.last_fewer,
    )


def saw_little_spread(answer: PoolAnswer) -> bool:
    """Whether the spread was estimated at next to nothing."""
    read = answer.reading
    return read is not None and read.rho is None and read.centre.tau < LITTLE_SPREAD


def _chances(reading: Reading, k: int, cases: int, rule: Rule) -> Floats:
    if rule is Rule.PLUG_IN:
        return student(reading.centre, k).pmf(cases)
    if rule is Rule.SAME_RATE:
        return same_rate(reading, k).pmf(cases)
    typical = float(special.expit(reading.centre.mu))
    chances: Floats = stats.binom.pmf(np.arange(cases + 1), cases, typical)
    return chances
