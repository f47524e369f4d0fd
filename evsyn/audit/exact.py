"""Exact intervals of a unit's own count."""

from evsyn.effects.intervals import clopper_pearson, one_sided_full_limit, one_sided_zero_limit
from evsyn.terms import Interval

LEVEL = 0.95


def exact_interval(events: int, total: int) -> Interval:
    """Return the exact two-sided 95% interval of one count."""
    low, high = clopper_pearson([events], [total], level=LEVEL)
    return Interval(float(low[0]), float(high[0]), LEVEL, "clopper_pearson")


def one_sided_limit(events: int, total: int) -> float | None:
    """Return the one-sided 95% limit: upper without an event, lower with nothing else."""
    if events == 0:
        return float(one_sided_zero_limit([total])[0])
    if events == total:
        return float(one_sided_full_limit([total])[0])
    return None
