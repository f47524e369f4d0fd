"""A period against the one before: what a count would be if nothing had changed.

A high count is partly a high rate and partly chance, and only the rate returns. So the spread of
ordinary new units is weighed anew by the count of the earlier period, and what it then predicts
is the yardstick for the later one.
"""

from dataclasses import dataclass, replace

import numpy as np
from scipy import special

from evsyn.audit.exact import exact_interval
from evsyn.audit.power import HIGHEST_RISK, Notice, at_least
from evsyn.audit.predictive import Predictive, knows_spread, predictive
from evsyn.audit.reasons import Reason
from evsyn.audit.verdict import TAIL, Limits, Tails, Verdict, limits, tails, verdict
from evsyn.effects.arguments import Floats
from evsyn.pooling.answer import PoolAnswer
from evsyn.terms import Better, Interval


@dataclass(frozen=True, slots=True)
class PeriodCount:
    """One period's count as it was seen, with its exact two-sided 95% interval."""

    events: int
    total: int
    interval: Interval


@dataclass(frozen=True, slots=True)
class LaterPeriod:
    """The later period, against what the earlier one and ordinary units lead one to expect.

    Parameters
    ----------
    count : PeriodCount
        What was seen.
    expected_count : float
        As many as would be seen on average if nothing had changed.
    judged : bool
        Whether a verdict could be given.
    verdict : Verdict
        The verdict on the later count.
    reason : Reason or None
        Why there is none.
    is_unfavourable : bool or None
        Whether the verdict is the unwelcome one; ``None`` where it takes no side.
    unchanged : Tails
        Chances of the count if nothing had changed.
    limits : Limits
        Range, and the counts at which a verdict would be given.
    notice : Notice or None
        Chance of noticing that the unit's own unfavourable risk has doubled; its typical risk is
        the one drawn toward ordinary units. ``None`` where the risk cannot rise.
    """

    count: PeriodCount
    expected_count: float
    judged: bool
    verdict: Verdict
    reason: Reason | None
    is_unfavourable: bool | None
    unchanged: Tails
    limits: Limits
    notice: Notice | None

    @property
    def is_high(self) -> bool:
        """Whether the count lies on the upper side of what is expected."""
        return self.unchanged.tail_at_least <= self.unchanged.tail_at_most


@dataclass(frozen=True, slots=True)
class NextPeriod:
    """An earlier count, the rate it leaves likely, and the later count beside it.

    Parameters
    ----------
    earlier : PeriodCount
        What was seen in the earlier period; never left out beside the rate below.
    shrunk, shrunk_low, shrunk_high : float
        The rate drawn toward those of ordinary units, with the range that holds 95% of it.
    again_expected : float
        Events among as many further cases, on average, if nothing changed.
    again : Tails
        Place of the earlier count among as many further cases if nothing changed: ``below`` is
        the chance of fewer next time, ``above`` of more.
    later : LaterPeriod or None
        The later period, where there is one.
    """

    earlier: PeriodCount
    shrunk: float
    shrunk_low: float
    shrunk_high: float
    again_expected: float
    again: Tails
    later: LaterPeriod | None


def next_period(
    earlier: tuple[int, int],
    later: tuple[int, int] | None,
    answer: PoolAnswer,
    *,
    better: Better,
    more: bool = True,
    fewer: bool = True,
) -> NextPeriod:
    """Draw an earlier count toward ordinary units, and set the later one against it.

    Parameters
    ----------
    earlier : (int, int)
        Events and cases of the earlier period.
    later : (int, int) or None
        Events and cases of the later one, on the same denominator and window.
    answer : PoolAnswer
        The pool of the same question, with a row to read.
    better : Better
        Whether fewer or more events are welcome.
    more, fewer : bool
        Which verdicts may be said of the later count.

    Raises
    ------
    ValueError
        If the pool has no row to read, or none that can predict, or a count is out of range.

    References
    ----------
    Jones HE, Spiegelhalter DJ. Stat Med 2009;28:1645-1667 (a change is judged by what is to be
    expected of a unit with that past).
    """
    if answer.reading is None:
        raise ValueError("there is no row to read, so nothing to draw toward")
    events, total = earlier
    units = reweighted(predictive(answer.reading, answer.k), events, total)
    return NextPeriod(
        earlier=_seen(events, total),
        shrunk=_mean(units, total),
        shrunk_low=float(special.expit(units.quantile(TAIL))),
        shrunk_high=float(special.expit(units.quantile(1 - TAIL))),
        again_expected=total * _mean(units, total),
        again=tails(units.pmf(total), events),
        later=None if later is None else _later(later, units, answer, better, more, fewer),
    )


def reweighted(units: Predictive, events: int, total: int) -> Predictive:
    """Return the spread of ordinary units among those that would show a count.

    Parameters
    ----------
    units : Predictive
        The spread of ordinary new units.
    events, total : int
        The count; every place of the spread is weighed by the chance of it there.

    Raises
    ------
    ValueError
        If the count is not one of the total's.
    """
    if not 0 <= events <= total:
        raise ValueError(f"events must lie between 0 and {total}; got {events!r}")

    def log_density(deviate: Floats) -> Floats:
        log_odds = units.centre + units.scale * deviate
        hit, miss = special.log_expit(log_odds), special.log_expit(-log_odds)
        seen = events * hit + (total - events) * miss
        return np.asarray(units.log_density(deviate) + seen, dtype=np.float64)

    return replace(units, log_density=log_density)


def _later(
    later: tuple[int, int],
    units: Predictive,
    answer: PoolAnswer,
    better: Better,
    more: bool,
    fewer: bool,
) -> LaterPeriod:
    events, total = later
    pmf = units.pmf(total)
    reason = None
    if not answer.show.verdict:
        reason = Reason.FEW_STUDIES
    elif answer.reading is None or not knows_spread(answer.reading):
        reason = Reason.NO_SPREAD
    more, fewer = more and reason is None, fewer and reason is None
    reach = limits(pmf, more=more, fewer=fewer)
    judged = reach.first_more is not None or reach.last_fewer is not None
    told = verdict(pmf, events, more=more and judged, fewer=fewer and judged)
    if told is Verdict.NONE and reason is None:
        has_room = reach.low > 0 or reach.high < total
        reason = Reason.WINDOW if has_room else Reason.TOO_FEW_CASES
    return LaterPeriod(
        count=_seen(events, total),
        expected_count=total * _mean(units, total),
        judged=judged,
        verdict=told,
        reason=reason,
        is_unfavourable=told.unfavourable(better),
        unchanged=tails(pmf, events),
        limits=reach,
        notice=_notice(reach, units, total, better),
    )


def _notice(reach: Limits, units: Predictive, total: int, better: Better) -> Notice | None:
    rate = _mean(units, total)
    risk = rate if better is Better.FEWER else 1 - rate
    doubled = min(2 * risk, HIGHEST_RISK)
    if doubled <= risk:
        return None
    if better is Better.FEWER:
        reached = total + 1 if reach.first_more is None else reach.first_more
        beyond = 1 - units.share_below(float(special.logit(doubled)))
    else:
        reached = total + 1 if reach.last_fewer is None else total - reach.last_fewer
        beyond = units.share_below(float(special.logit(1 - doubled)))
    return Notice(
        typical=risk,
        doubled=doubled,
        notice=float(at_least(reached, total, doubled)),
        share_beyond=beyond,
    )


def _mean(units: Predictive, cases: int) -> float:
    log_odds, weights = units.nodes(cases)
    return float(weights @ special.expit(log_odds))


def _seen(events: int, total: int) -> PeriodCount:
    return PeriodCount(events, total, exact_interval(events, total))
