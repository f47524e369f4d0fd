"""Hold a unit's whole against what its own case mix would give: indirect standardisation.

The expected count is the unit's cases at each level times the mean rate of that level's studies;
the range of ordinary new units allows for how far units differ, with one draw for all levels.
"""

from collections.abc import Mapping, Sequence

from evsyn.audit.comparable import Comparable
from evsyn.audit.counts import UnitTally, count_groups
from evsyn.audit.divisions import DivisionLevel, Refusal, Stop, divided, divisions
from evsyn.audit.predictive import MOST_CASES, knows_spread, spread_used
from evsyn.audit.reasons import Reason, no_comparison
from evsyn.audit.shared_draw import LevelPool, separate_draws, shared_draw, shared_typical
from evsyn.audit.standardised import (
    Ratio,
    Separately,
    Standardisation,
    Standardised,
    StandardisedLevel,
)
from evsyn.audit.total_notice import total_notice
from evsyn.audit.verdict import Verdict, limits, tails, verdict
from evsyn.cells.cell import Question
from evsyn.effects.poisson import exact_poisson
from evsyn.extraction.plan import Plan
from evsyn.extraction.unit import Unit
from evsyn.pooling.tables import PooledTable
from evsyn.terms import Better, Interval

LEVEL = 0.95


def standardisation(
    unit: Unit, plan: Plan, outcome: str, pooled: Mapping[Question, PooledTable]
) -> Standardisation | None:
    """Hold a unit's whole against what its own case mix would give.

    The finest division is used of which every level has a pool that may give a verdict: all strata
    the unit labels, crossed; else each alone, in the plan's order. Where no division has, the
    finest is shown without a verdict of which every level has a pool of three studies or more.
    The choice looks at the pools and never at the unit's events; no level is ever left out.

    Parameters
    ----------
    unit : Unit
        The unit's figures, without faults.
    plan : Plan
        The plan.
    outcome : str
        Outcome by its name.
    pooled : mapping of Question to PooledTable
        The pools of :func:`evsyn.audit.divisions.division_questions`, the unit's own studies left
        out.

    Returns
    -------
    Standardisation or None
        ``None`` where the unit does not report the outcome.

    Raises
    ------
    ValueError
        If one of the unit's own studies is in a pool.
    """
    better = plan.outcomes[outcome].better
    counted = count_groups(Question(outcome), unit.groups)
    if not counted:
        return None
    whole = counted[0]
    refused = _refused(whole, unit, plan)
    found = None
    if not refused:
        levels, refused = _division(whole, unit, plan, pooled)
        found = _compared(whole, levels, better) if levels else None
    return Standardisation(
        outcome, better, whole.events, whole.total, whole.unknown, tuple(refused), found
    )


def _division(
    whole: UnitTally, unit: Unit, plan: Plan, pooled: Mapping[Question, PooledTable]
) -> tuple[Sequence[DivisionLevel], list[Refusal]]:
    """Return the levels to use and the divisions passed over; no level where none can be used."""
    refused: list[Refusal] = []
    shown: tuple[Sequence[DivisionLevel], list[Refusal]] | None = None
    for strata in divisions(unit, plan):
        levels = divided(whole, strata, unit, plan, pooled)
        if isinstance(levels, Refusal):
            refused.append(levels)
            continue
        mute = _forbids(levels)
        if mute is None:
            return levels, refused
        shown = shown or (levels, list(refused))
        refused.append(Refusal(strata, *mute))
    return shown or ((), refused)


def _refused(whole: UnitTally, unit: Unit, plan: Plan) -> list[Refusal]:
    """Say what forbids every division."""
    follow_up = no_comparison(whole, unit, None, Comparable(()), plan) is Reason.NO_FOLLOW_UP
    told: dict[Reason | Stop, bool] = {
        Reason.REFUSED: plan.outcomes[whole.question.outcome].do_not_pool is not None,
        Stop.SPLIT: whole.is_split,
        Reason.NO_FOLLOW_UP: follow_up,
        Reason.TOO_MANY_CASES: whole.total > MOST_CASES,
        Stop.NO_STRATUM: not divisions(unit, plan),
    }
    return [Refusal((), reason) for reason, holds in told.items() if holds][:1]


def _compared(whole: UnitTally, levels: Sequence[DivisionLevel], better: Better) -> Standardised:
    pools = [LevelPool(level.tally.total, level.reading, level.held.answer.k) for level in levels]
    units = shared_draw(pools)
    pmf = units.pmf()
    mute = _forbids(levels)
    reason = None if mute is None else mute[0]
    more = all(level.judged.more for level in levels) and reason is None
    fewer = all(level.judged.fewer for level in levels) and reason is None
    reach = limits(pmf, more=more, fewer=fewer)
    judged = reach.first_more is not None or reach.last_fewer is not None
    more, fewer = more and judged, fewer and judged
    told = verdict(pmf, whole.events, more=more, fewer=fewer)
    ordinary = tails(pmf, whole.events)
    if told is Verdict.NONE and reason is None:
        has_room = reach.low > 0 or reach.high < whole.total
        reason = Reason.WINDOW if has_room else Reason.TOO_FEW_CASES
    separately = None
    if len(levels) > 1:
        apart = separate_draws(pools)
        separately = Separately(
            limits=limits(apart, more=more, fewer=fewer),
            tails=tails(apart, whole.events),
            verdict=verdict(apart, whole.events, more=more, fewer=fewer),
        )
    expected = sum(level.expected for level in levels)
    return Standardised(
        strata=levels[0].tally.question.strata,
        levels=tuple(_level(level) for level in levels),
        expected=expected,
        excess=whole.events - expected,
        ratio=_ratio(whole, expected, better),
        judged=judged,
        verdict=told,
        reason=reason,
        is_unfavourable=told.unfavourable(better),
        centile=ordinary.centile,
        ordinary=ordinary,
        average=tails(shared_typical(pools).pmf(), whole.events),
        limits=reach,
        notice=total_notice(reach, pools, units, better),
        separately=separately,
    )


def _forbids(levels: Sequence[DivisionLevel]) -> tuple[Reason, Question] | None:
    """Return why no verdict may be given whatever the count, and the level that forbids it."""
    for level in levels:
        if not level.held.answer.show.verdict:
            return Reason.FEW_STUDIES, level.tally.question
    for level in levels:
        if not knows_spread(level.reading):
            return Reason.NO_SPREAD, level.tally.question
    return None


def _level(level: DivisionLevel) -> StandardisedLevel:
    reading = level.reading
    return StandardisedLevel(
        question=level.tally.question,
        events=level.tally.events,
        total=level.tally.total,
        expected=level.expected,
        benchmark=level.benchmark,
        differs=level.judged.differs,
        used_larger_spread=spread_used(reading) is not reading.centre,
    )


def _ratio(whole: UnitTally, expected: float, better: Better) -> Ratio:
    observed = whole.events if better is Better.FEWER else whole.total - whole.events
    unwelcome = expected if better is Better.FEWER else whole.total - expected
    low, high = exact_poisson([observed], level=LEVEL)
    interval = Interval(
        float(low[0]) / unwelcome, float(high[0]) / unwelcome, LEVEL, "exact_poisson"
    )
    return Ratio(observed, unwelcome, observed / unwelcome, interval)
