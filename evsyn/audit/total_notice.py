"""What a whole with this case mix could have shown."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy import special

from evsyn.audit.power import HIGHEST_RISK, LEVEL, Notice
from evsyn.audit.shared_draw import LevelPool, SharedDraw
from evsyn.audit.totals import totals
from evsyn.audit.verdict import Limits
from evsyn.effects.arguments import Floats
from evsyn.terms import Better


@dataclass(frozen=True, slots=True)
class TotalNotice(Notice):
    """Chance of noticing a unit at twice the typical unfavourable risk at every level.

    Parameters
    ----------
    typical, doubled : float
        The typical unfavourable risk, and the doubled one, averaged over the unit's cases.
    notice, share_beyond : float
        As in :class:`evsyn.audit.power.Notice`, over the whole.
    is_capped : bool
        Whether at some level twice the risk would pass 95%, and was not taken beyond.
    notice_average : float
        Chance that an exact one-sided 5% test against the typical risks, taken as fixed, does.
    """

    is_capped: bool
    notice_average: float


def total_notice(
    limits: Limits, levels: Sequence[LevelPool], units: SharedDraw, better: Better
) -> TotalNotice | None:
    """Return what the whole could have shown; ``None`` where the risk cannot rise.

    Parameters
    ----------
    limits : Limits
        Counts at which a verdict is given.
    levels : sequence of LevelPool
        The unit's levels with their pools.
    units : SharedDraw
        The spread of ordinary new units.
    better : Better
        Whether fewer or more events are welcome.
    """
    cases = np.array([level.cases for level in levels], dtype=np.int64)
    rates = special.expit(np.array([level.reading.centre.mu for level in levels]))
    risks = rates if better is Better.FEWER else 1 - rates
    doubled = np.maximum(risks, np.minimum(2 * risks, HIGHEST_RISK))
    if np.all(doubled <= risks):
        return None
    n = int(cases.sum())
    usual, raised = _unwelcome(cases, risks), _unwelcome(cases, doubled)
    if better is Better.FEWER:
        reached = limits.first_more
        beyond = units.share_above(float(cases @ doubled))
    else:
        reached = None if limits.last_fewer is None else n - limits.last_fewer
        beyond = 1 - units.share_above(n - float(cases @ doubled))
    # Smallest count whose chance, or that of more, is at most the level of the test.
    at_least = np.cumsum(usual[::-1])[::-1]
    critical = usual.size - int(np.count_nonzero(at_least <= LEVEL))
    return TotalNotice(
        typical=float(cases @ risks) / n,
        doubled=float(cases @ doubled) / n,
        notice=0.0 if reached is None else float(raised[reached:].sum()),
        share_beyond=beyond,
        is_capped=bool(np.any(2 * risks > HIGHEST_RISK)),
        notice_average=float(raised[critical:].sum()),
    )


def _unwelcome(cases: np.ndarray, risks: Floats) -> Floats:
    return totals(cases, risks[np.newaxis, :], np.ones(1))
