"""Where a unit stands: each of its counts, set against the pool of the same question."""

from collections.abc import Mapping
from dataclasses import dataclass, fields

from evsyn.audit.ascertainment import period_years
from evsyn.audit.benchmark import Benchmark, benchmark
from evsyn.audit.case_mix import MixRow, case_mix
from evsyn.audit.comparable import Comparable, Differs, comparable
from evsyn.audit.comparison import Comparison, compare
from evsyn.audit.counts import UnitTally, tallies
from evsyn.audit.exact import exact_interval, one_sided_limit
from evsyn.audit.extremes import Extremes, extremes
from evsyn.audit.plain import plain
from evsyn.audit.reasons import Caveat, Reason, caveats, no_comparison, no_verdict
from evsyn.audit.verdict import Verdict
from evsyn.cells.cell import Question
from evsyn.extraction.plan import Plan
from evsyn.extraction.unit import Unit
from evsyn.pooling.tables import PooledTable
from evsyn.terms import OVERALL, Better, Interval, Source


@dataclass(frozen=True, slots=True)
class Standing:
    """One count of a unit, and where it stands.

    Parameters
    ----------
    outcome, stratum, level : str
        What was counted; stratum and level are ``overall`` for the unit's whole.
    events, total : int
        The count, of cases whose outcome is known.
    unknown : int
        Further cases of the denominator whose outcome is not known.
    basis, window : str
        Its denominator basis and window.
    better : Better
        Whether fewer or more events are welcome.
    interval : Interval or None
        Exact two-sided 95% interval; ``None`` where the count may not be read as a share.
    one_sided : float or None
        One-sided 95% limit: upper where there was no event, lower where there was nothing else.
    benchmark : Benchmark or None
        The pool, where there is one.
    comparison : Comparison or None
        The comparison, where one may be made.
    reason : Reason or None
        Why there is no comparison, or no verdict.
    differs : tuple of Differs
        How denominator and window differ from the pool's.
    caveats : tuple of Caveat
        What else to bear in mind.
    extremes : Extremes or None
        The count at its best and at its worst, where outcomes are not known.
    followed_months : float or None
        Median follow-up in months, where the window ends only with follow-up.
    is_primary : bool
        Whether the plan names it as the one primary indicator.
    mix : tuple of MixRow
        For the unit's whole: both case mixes; empty where the plan does not pool the outcome.
    sources : tuple of Source
        Where the counts were written.
    """

    outcome: str
    stratum: str
    level: str
    events: int
    total: int
    unknown: int
    basis: str
    window: str
    better: Better
    interval: Interval | None
    one_sided: float | None
    benchmark: Benchmark | None
    comparison: Comparison | None
    reason: Reason | None
    differs: tuple[Differs, ...]
    caveats: tuple[Caveat, ...]
    extremes: Extremes | None
    followed_months: float | None
    is_primary: bool
    mix: tuple[MixRow, ...]
    sources: tuple[Source, ...]

    @property
    def verdict(self) -> Verdict:
        """The verdict; ``NONE`` where there is no comparison."""
        return Verdict.NONE if self.comparison is None else self.comparison.verdict

    @property
    def question(self) -> Question:
        """The question whose pool is the benchmark."""
        return Question(self.outcome, self.stratum, self.level)

    def to_dict(self) -> dict[str, object]:
        """Return every field as plain data for JSON; what does not exist is ``None``."""
        written = {field.name: plain(getattr(self, field.name)) for field in fields(self)}
        return {"question": self.question.key, **written}


def standings(
    unit: Unit, pooled: Mapping[Question, PooledTable], plan: Plan
) -> tuple[Standing, ...]:
    """Return where a unit stands, for every outcome and level it reports.

    Levels of each stratum come first, then the unit's whole. The whole gets no verdict, since a
    difference in case mix would read as one in quality: its levels are the comparison.

    Parameters
    ----------
    unit : Unit
        The unit's figures, without faults.
    pooled : mapping of Question to PooledTable
        The pools, the unit's own studies left out; a question without one is not compared.
    plan : Plan
        The plan both use.

    Raises
    ------
    ValueError
        If one of the unit's own studies is in a pool.
    """
    return tuple(_standing(tally, unit, pooled, plan) for tally in tallies(unit, plan))


def _standing(
    tally: UnitTally, unit: Unit, pooled: Mapping[Question, PooledTable], plan: Plan
) -> Standing:
    question = tally.question
    better = plan.outcomes[question.outcome].better
    held = pooled.get(question)
    judged = Comparable(())
    if held is not None and held.table.cells:
        judged = comparable(tally.basis, tally.window, held.table, plan)
    reason = no_comparison(tally, unit, held, judged, plan)
    is_share = reason is not Reason.NO_FOLLOW_UP
    years = period_years(unit)
    comparison = None
    if held is not None and reason is None:
        comparison = compare(
            tally.events,
            tally.total,
            held.answer,
            better=better,
            years=years,
            more=judged.more,
            fewer=judged.fewer,
        )
        reason = no_verdict(comparison, held, tally.total)
    is_pooled = plan.outcomes[question.outcome].do_not_pool is None
    shows_mix = question.stratum == OVERALL and is_pooled
    return Standing(
        outcome=question.outcome,
        stratum=question.stratum,
        level=question.level,
        events=tally.events,
        total=tally.total,
        unknown=tally.unknown,
        basis=tally.basis,
        window=tally.window,
        better=better,
        interval=exact_interval(tally.events, tally.total) if is_share else None,
        one_sided=one_sided_limit(tally.events, tally.total) if is_share else None,
        benchmark=None if held is None else benchmark(held, tuple(unit.own_studies)),
        comparison=comparison,
        reason=reason,
        differs=judged.differs,
        caveats=caveats(tally, unit, held, comparison, plan),
        extremes=extremes(
            tally.events,
            tally.total,
            tally.unknown if is_share else 0,
            better=better,
            comparison=comparison,
            answer=None if held is None else held.answer,
            years=years,
            more=judged.more,
            fewer=judged.fewer,
        ),
        followed_months=_followed_months(tally, unit, plan),
        is_primary=_is_primary(question, plan),
        mix=case_mix(unit, plan, question.outcome, pooled) if shows_mix else (),
        sources=tally.sources,
    )


def _followed_months(tally: UnitTally, unit: Unit, plan: Plan) -> float | None:
    window = plan.windows.get(tally.window)
    if window is None or not window.is_open or unit.followed is None:
        return None
    return unit.followed.median_months


def _is_primary(question: Question, plan: Plan) -> bool:
    named = plan.audit.primary
    if named is None:
        return False
    asked = Question(named.outcome, named.stratum or OVERALL, named.level or OVERALL)
    return question == asked
