"""A count at its best and at its worst, where some outcomes are not known."""

from dataclasses import dataclass

from evsyn.audit.comparison import Comparison, compare
from evsyn.audit.exact import exact_interval
from evsyn.audit.verdict import Verdict
from evsyn.pooling.answer import PoolAnswer
from evsyn.terms import Better, Interval


@dataclass(frozen=True, slots=True)
class Extreme:
    """What would have been counted if every unknown outcome had gone one way.

    Parameters
    ----------
    events, total : int
        The count with the unknown cases in it.
    interval : Interval
        Exact two-sided 95% interval.
    verdict : Verdict
        What would be said of it.
    """

    events: int
    total: int
    interval: Interval
    verdict: Verdict


@dataclass(frozen=True, slots=True)
class Extremes:
    """The most welcome and the least welcome count that the unknown outcomes allow."""

    best: Extreme
    worst: Extreme


def extremes(
    events: int,
    total: int,
    unknown: int,
    *,
    better: Better,
    comparison: Comparison | None,
    answer: PoolAnswer | None,
    years: float,
    more: bool,
    fewer: bool,
) -> Extremes | None:
    """Return a count at its best and at its worst; ``None`` where every outcome is known.

    Parameters
    ----------
    events, total : int
        The count among cases whose outcome is known.
    unknown : int
        Cases of the same denominator whose outcome is not known.
    better : Better
        Whether fewer or more events are welcome.
    comparison : Comparison or None
        How the known count compares; without it neither extreme is given a verdict.
    answer : PoolAnswer or None
        The pool it was compared with.
    years : float
        Years the cases were gathered in.
    more, fewer : bool
        Which verdicts may be said.
    """
    if not unknown:
        return None

    def at(count: int) -> Extreme:
        found = Verdict.NONE
        if comparison is not None and answer is not None:
            again = compare(
                count, total + unknown, answer, better=better, years=years, more=more, fewer=fewer
            )
            found = again.verdict
        return Extreme(count, total + unknown, exact_interval(count, total + unknown), found)

    fewest, most = at(events), at(events + unknown)
    if better is Better.FEWER:
        return Extremes(best=fewest, worst=most)
    return Extremes(best=most, worst=fewest)
