"""Whether a count lies outside the range that ordinary new units show."""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from evsyn.effects.arguments import Floats
from evsyn.terms import Better

#: A count is outside the range where the chance of it or a more extreme one is at most this.
TAIL = 0.025


class Verdict(StrEnum):
    """Where a count lies against ordinary new units of its size."""

    MORE = "more_than_the_range"
    FEWER = "fewer_than_the_range"
    WITHIN = "within_the_range"
    NONE = "no_verdict"

    def unfavourable(self, better: Better) -> bool | None:
        """Whether the verdict is the unwelcome one; ``None`` where it takes no side."""
        if self is Verdict.MORE:
            return better is Better.FEWER
        if self is Verdict.FEWER:
            return better is Better.MORE
        return None


@dataclass(frozen=True, slots=True)
class Tails:
    """Chances of a count, and of more extreme ones.

    Parameters
    ----------
    tail_at_least, tail_at_most : float
        Chance of this count or more, and of this count or fewer; verdicts use these.
    tail_mid_p_at_least, tail_mid_p_at_most : float
        The same with half the chance of the count itself.
    tail_doubled : float
        Twice the smaller of those two, at most 1.
    below, same, above : float
        Chance of fewer, of as many, of more.
    """

    tail_at_least: float
    tail_at_most: float
    tail_mid_p_at_least: float
    tail_mid_p_at_most: float
    tail_doubled: float
    below: float
    same: float
    above: float

    @property
    def centile(self) -> float:
        """Place of the count among such units: chance of fewer and half that of as many."""
        return self.tail_mid_p_at_most


@dataclass(frozen=True, slots=True)
class Limits:
    """The counts at which a verdict would be given.

    Parameters
    ----------
    first_more, last_fewer : int or None
        Smallest count called more than the range, largest called fewer; ``None`` if there is
        none.
    chance_more, chance_fewer : float
        Chance that an ordinary unit is called so.
    low, high : int
        The range: at least 19 in 20 ordinary units lie from ``low`` to ``high``.
    """

    first_more: int | None
    last_fewer: int | None
    chance_more: float
    chance_fewer: float
    low: int
    high: int


def tails(pmf: Floats, events: int) -> Tails:
    """Return the tails of a count.

    Parameters
    ----------
    pmf : ndarray
        Chance of each count, shape ``(cases + 1,)``.
    events : int
        The count.

    Raises
    ------
    ValueError
        If the count is not one of them.
    """
    if not 0 <= events < pmf.size:
        raise ValueError(f"events must lie between 0 and {pmf.size - 1}; got {events!r}")
    below, above = float(pmf[:events].sum()), float(pmf[events + 1 :].sum())
    same = float(pmf[events])
    mid_low, mid_high = below + same / 2, above + same / 2
    return Tails(
        tail_at_least=min(1.0, same + above),
        tail_at_most=min(1.0, same + below),
        tail_mid_p_at_least=mid_high,
        tail_mid_p_at_most=mid_low,
        tail_doubled=min(1.0, 2 * min(mid_low, mid_high)),
        below=below,
        same=same,
        above=above,
    )


def limits(pmf: Floats, *, more: bool = True, fewer: bool = True) -> Limits:
    """Return the counts at which a verdict would be given.

    Parameters
    ----------
    pmf : ndarray
        Chance of each count, shape ``(cases + 1,)``.
    more, fewer : bool
        Which verdicts may be given; the range itself does not depend on them.
    """
    at_most = np.cumsum(pmf)
    at_least = np.cumsum(pmf[::-1])[::-1]
    # Both runs are sorted, so the number of counts that qualify gives the place of the last.
    n_fewer = int(np.count_nonzero(at_most <= TAIL))
    n_more = int(np.count_nonzero(at_least <= TAIL))
    first_more = pmf.size - n_more if more and n_more else None
    last_fewer = n_fewer - 1 if fewer and n_fewer else None
    return Limits(
        first_more=first_more,
        last_fewer=last_fewer,
        chance_more=0.0 if first_more is None else float(at_least[first_more]),
        chance_fewer=0.0 if last_fewer is None else float(at_most[last_fewer]),
        low=n_fewer,
        high=pmf.size - 1 - n_more,
    )


def verdict(pmf: Floats, events: int, *, more: bool = True, fewer: bool = True) -> Verdict:
    """Return the verdict on a count; ``NONE`` where it points a way that may not be said.

    Parameters
    ----------
    pmf : ndarray
        Chance of each count, shape ``(cases + 1,)``.
    events : int
        The count.
    more, fewer : bool
        Which verdicts may be given.

    Notes
    -----
    Tails count the observed value, so at most 2.5% of units drawn from the same distribution are
    called more, and at most 2.5% fewer.
    """
    reach = limits(pmf)
    if events > reach.high:
        return Verdict.MORE if more else Verdict.NONE
    if events < reach.low:
        return Verdict.FEWER if fewer else Verdict.NONE
    return Verdict.WITHIN if more or fewer else Verdict.NONE


def verdict_at(limits: Limits, events: int) -> Verdict:
    """Return the verdict on a count from the counts at which one is given.

    ``NONE`` where the count points a way that is not judged, or no count would lie outside.

    Parameters
    ----------
    limits : Limits
        The range, and the counts at which a verdict would be given.
    events : int
        The count.
    """
    if events > limits.high:
        return Verdict.MORE if limits.first_more is not None else Verdict.NONE
    if events < limits.low:
        return Verdict.FEWER if limits.last_fewer is not None else Verdict.NONE
    is_judged = limits.first_more is not None or limits.last_fewer is not None
    return Verdict.WITHIN if is_judged else Verdict.NONE
