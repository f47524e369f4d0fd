"""What a unit's number of cases could have shown."""

import math
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy import special

from evsyn.audit.predictive import Predictive
from evsyn.audit.verdict import TAIL, Limits
from evsyn.effects.arguments import Floats
from evsyn.terms import Better

Counts: TypeAlias = NDArray[np.int64]

#: One-sided level of the test against a fixed rate, and the power asked of it.
LEVEL = 0.05
POWER = 0.80

#: Up to this number of cases power is computed exactly.
LARGEST_EXACT = 2_000

#: Below this a chance of noticing is small enough to need a reason.
SMALL_CHANCE = 0.10

#: Twice a risk is not taken beyond this.
HIGHEST_RISK = 0.95


@dataclass(frozen=True, slots=True)
class Notice:
    """Chance of noticing a unit at a raised unfavourable risk.

    Risks are those of the unfavourable side: of the event where fewer are better, of its absence
    where more are.

    Parameters
    ----------
    typical, doubled : float
        The typical unfavourable risk, and twice that, at most 95%.
    notice : float
        Chance that the verdict against the range notices a unit at the doubled risk.
    share_beyond : float
        Share of ordinary units whose own risk is above the doubled one.
    """

    typical: float
    doubled: float
    notice: float
    share_beyond: float

    def is_ordinary(self, attained: float) -> bool:
        """Whether a unit at the doubled risk goes unnoticed since ordinary units differ by more.

        Parameters
        ----------
        attained : float
            Chance that an ordinary unit gets the unfavourable verdict. Where even that is above
            ``notice``, some ordinary units have a risk above the doubled one; else a small chance
            has this cause where more of them do than the range leaves outside.
        """
        return self.notice < attained or (self.is_small and self.share_beyond > TAIL)

    @property
    def is_small(self) -> bool:
        """Whether the chance of noticing is so small that it needs a reason."""
        return self.notice < SMALL_CHANCE


@dataclass(frozen=True, slots=True)
class Power(Notice):
    """Chance of noticing a unit at twice the typical unfavourable risk, and the cases it takes.

    Parameters
    ----------
    typical, doubled, notice, share_beyond : float
        As in :class:`Notice`.
    limits : Limits
        Counts that would be called more or fewer than the range, and how often ordinary units
        reach them.
    notice_average : float
        Chance that an exact one-sided 5% test against the typical risk, taken as fixed, does.
    cases_needed : int
        Cases from which that second chance stays at 80% or more.
    is_exact : bool
        Whether ``cases_needed`` was searched exactly; else by the normal formula.
    years_needed : float
        Years it takes to have that many cases at the unit's own rate.
    """

    limits: Limits
    notice_average: float
    cases_needed: int
    is_exact: bool
    years_needed: float


def power(
    limits: Limits, *, units: Predictive, typical: float, cases: int, years: float, better: Better
) -> Power | None:
    """Return what ``cases`` could have shown; ``None`` where the risk cannot rise.

    Parameters
    ----------
    limits : Limits
        Counts at which a verdict is given.
    units : Predictive
        The spread of ordinary new units.
    typical : float
        Typical rate of the event, strictly between 0 and 1.
    cases : int
        The unit's number of cases.
    years : float
        Years they were gathered in.
    better : Better
        Whether fewer or more events are welcome.
    """
    risk = typical if better is Better.FEWER else 1 - typical
    doubled = min(2 * risk, HIGHEST_RISK)
    if doubled <= risk:
        return None
    if better is Better.FEWER:
        reached = cases + 1 if limits.first_more is None else limits.first_more
        beyond = 1 - units.share_below(float(special.logit(doubled)))
    else:
        beyond = units.share_below(float(special.logit(1 - doubled)))
        reached = cases + 1 if limits.last_fewer is None else cases - limits.last_fewer
    needed, is_exact = cases_needed(risk, doubled)
    critical = critical_count(np.array([cases]), risk)
    return Power(
        limits=limits,
        typical=risk,
        doubled=doubled,
        notice=float(at_least(reached, cases, doubled)),
        share_beyond=beyond,
        notice_average=float(at_least(critical, cases, doubled)[0]),
        cases_needed=needed,
        is_exact=is_exact,
        years_needed=needed * years / cases,
    )


def at_least(count: ArrayLike, cases: ArrayLike, rate: float) -> Floats:
    """Return the binomial chance of ``count`` events or more."""
    x, n = np.asarray(count, dtype=np.float64), np.asarray(cases, dtype=np.float64)
    inside = (x >= 1) & (x <= n)
    shape, other = np.where(inside, x, 1.0), np.where(inside, n - x + 1, 1.0)
    chance = special.betainc(shape, other, rate)
    return np.where(inside, chance, np.where(x < 1, 1.0, 0.0))


def critical_count(cases: Counts, rate: float, level: float = LEVEL) -> Counts:
    """Return the smallest count whose chance, or that of more, is at most ``level``.

    Parameters
    ----------
    cases : ndarray of int
        Numbers of cases.
    rate : float
        Rate under which the chance is taken.
    level : float
        One-sided level.

    Returns
    -------
    ndarray of int
        Same shape; ``cases + 1`` where no count is as unlikely.
    """
    low, high = np.zeros_like(cases), cases + 1
    while np.any(high - low > 1):
        middle = (low + high) // 2
        rare = at_least(middle, cases, rate) <= level
        low, high = np.where(rare, low, middle), np.where(rare, middle, high)
    return high


def exact_power(cases: Counts, rate: float, doubled: float) -> Floats:
    """Return the power of the exact one-sided 5% test of ``rate`` at ``doubled``."""
    return at_least(critical_count(cases, rate), cases, doubled)


def cases_needed(rate: float, doubled: float) -> tuple[int, bool]:
    """Return the cases from which exact power stays at 80% or more, and whether it was searched.

    Parameters
    ----------
    rate, doubled : float
        Risk taken as fixed, and the risk to be noticed.

    Notes
    -----
    Exact power rises like a saw, so the first number that reaches 80% is not enough. Beyond 2,000
    cases the normal formula stands in.
    """
    cases = np.arange(1, LARGEST_EXACT + 1)
    short = np.flatnonzero(exact_power(cases, rate, doubled) < POWER)
    holds_from = int(cases[short[-1]]) + 1 if short.size else 1
    if holds_from <= LARGEST_EXACT:
        return holds_from, True
    return max(LARGEST_EXACT + 1, caseload(rate, doubled)), False


def caseload(rate: float, raised: float) -> int:
    """Return the cases needed by the normal formula, one-sided 5% and 80% power.

    References
    ----------
    Dimick JB, Welch HG, Birkmeyer JD. JAMA 2004;292:847-851.
    """
    z_level, z_power = special.ndtri(1 - LEVEL), special.ndtri(POWER)
    spread = z_level * math.sqrt(rate * (1 - rate)) + z_power * math.sqrt(raised * (1 - raised))
    return math.ceil(float((spread / (raised - rate)) ** 2))


def cases_to_exclude(rate: float) -> int:
    """Return the cases without one event that rule a rate out, one-sided 95%."""
    return math.ceil(math.log(LEVEL) / math.log1p(-rate))
