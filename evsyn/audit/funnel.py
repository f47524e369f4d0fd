"""Counts around a fixed target: exact tails, flags, and the lines a funnel draws.

A flag comes from the exact tail of the count, never from a drawn line: the usual curve passes
below counts that no exact test would flag.
"""

import math
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from scipy import special

from evsyn.audit.power import Counts, at_least, critical_count
from evsyn.effects.arguments import Floats


class Flag(StrEnum):
    """How far a count lies from a fixed target; each is a prompt to look."""

    NONE = "no_flag"
    ALERT = "alert"
    ALARM = "alarm"


@dataclass(frozen=True, slots=True)
class FixedTarget:
    """A rate settled before the counts were seen.

    Parameters
    ----------
    rate : float
        The rate, strictly between 0 and 1.
    alert, alarm : float
        Two-sided levels of the two lines, as 0.95 and 0.998.

    Raises
    ------
    ValueError
        If a number is out of range, or the alarm level is not above the alert level.
    """

    rate: float
    alert: float = 0.95
    alarm: float = 0.998

    def __post_init__(self) -> None:
        if not 0 < self.rate < 1:
            raise ValueError(f"a target must lie between 0 and 1; got {self.rate!r}")
        if not 0 < self.alert < self.alarm < 1:
            raise ValueError("the alarm level must lie above the alert level, both below 1")

    def tail(self, flag: Flag) -> float:
        """Return the chance beyond one side at which a flag is raised."""
        level = self.alarm if flag is Flag.ALARM else self.alert
        # 1 - 0.95 is not 0.05 in binary, and a tail may equal the level exactly.
        return round((1 - level) / 2, 12)

    def flagged(self, total: int, flag: Flag) -> tuple[int, int]:
        """Return the last count flagged below and the first above, as :func:`flagged_counts`."""
        low, high = flagged_counts(np.array([total]), self.rate, self.tail(flag))
        return int(low[0]), int(high[0])


@dataclass(frozen=True, slots=True)
class AgainstTarget:
    """A count against a fixed target.

    Parameters
    ----------
    tail_at_least, tail_at_most : float
        Exact binomial chance of this count or more, and of this count or fewer, at the target.
    flag : Flag
        The graver flag raised on either side.
    is_above : bool or None
        Which side raised it; ``None`` without a flag.
    """

    tail_at_least: float
    tail_at_most: float
    flag: Flag
    is_above: bool | None


def against_target(events: int, total: int, target: FixedTarget) -> AgainstTarget:
    """Set one count against a fixed target.

    Raises
    ------
    ValueError
        If the count is not one of the total's.
    """
    if not 0 <= events <= total or total < 1:
        raise ValueError(f"events must lie between 0 and {total}; got {events!r}")
    more = float(at_least(events, total, target.rate))
    fewer = float(at_least(total - events, total, 1 - target.rate))
    smaller = min(more, fewer)
    for flag in (Flag.ALARM, Flag.ALERT):
        if smaller <= target.tail(flag):
            return AgainstTarget(more, fewer, flag, more < fewer)
    return AgainstTarget(more, fewer, Flag.NONE, None)


def flagged_counts(sizes: Counts, rate: float, tail: float) -> tuple[Counts, Counts]:
    """Return the counts at which a flag is raised.

    Parameters
    ----------
    sizes : ndarray of int
        Numbers of cases.
    rate, tail : float
        The target, and the chance beyond one side.

    Returns
    -------
    last_low, first_high : ndarray of int
        Largest count flagged below, -1 where there is none; smallest flagged above, one more than
        the cases where there is none.
    """
    return sizes - critical_count(sizes, 1 - rate, tail), critical_count(sizes, rate, tail)


def stepped_limits(sizes: Counts, rate: float, tail: float) -> tuple[Floats, Floats]:
    """Return lines that part flagged counts from others: half way to the first flagged count.

    Returns
    -------
    low, high : ndarray
        Shares; ``nan`` where no count of that size is flagged on that side.
    """
    last_low, first_high = flagged_counts(sizes, rate, tail)
    low = np.where(last_low >= 0, (last_low + 0.5) / sizes, np.nan)
    high = np.where(first_high <= sizes, (first_high - 0.5) / sizes, np.nan)
    return low, high


def interpolated_limits(sizes: Counts, rate: float, tail: float) -> tuple[Floats, Floats]:
    """Return the smooth exact limits drawn when many units share a funnel.

    Returns
    -------
    low, high : ndarray
        Shares; ``nan`` where no count of that size can be flagged on that side.

    Notes
    -----
    With ``r`` the smallest count whose cumulative chance reaches ``p``, the limit is
    ``(r - a) / n`` where ``a = (F(r) - p) / f(r)``. The upper line so runs up to one count below
    the first count that is flagged.

    References
    ----------
    Spiegelhalter DJ. Stat Med 2005;24:1185-1202 (formula from memory).
    """
    low = np.full(sizes.shape, np.nan)
    high = np.full(sizes.shape, np.nan)
    last_low, first_high = flagged_counts(sizes, rate, tail)
    for i, n in enumerate(sizes.tolist()):
        reached = special.bdtr(np.arange(n + 1, dtype=np.float64), n, rate)
        if last_low[i] >= 0:
            low[i] = _crossing(reached, tail) / n
        if first_high[i] <= n:
            high[i] = _crossing(reached, 1 - tail) / n
    return low, high


def _crossing(reached: Floats, p: float) -> float:
    """Return where the cumulative chance crosses ``p``, by a straight line between counts."""
    r = int(np.searchsorted(reached, p))
    below = float(reached[r - 1]) if r else 0.0
    return r - (float(reached[r]) - p) / (float(reached[r]) - below)


def cases_for_low_flag(rate: float, tail: float) -> int:
    """Return the cases from which no event at all would be flagged as too few.

    With fewer cases no result can fall below the line.
    """
    return _cases_until(1 - rate, tail)


def cases_for_high_flag(rate: float, tail: float) -> int:
    """Return the cases from which an event in every case would be flagged as too many."""
    return _cases_until(rate, tail)


def _cases_until(chance: float, tail: float) -> int:
    """Return the smallest n with ``chance ** n <= tail``."""
    return max(1, math.ceil(math.log(tail) / math.log(chance) - 1e-12))
