"""Where a unit stands: each of its counts, set against the pool of the same question."""

from collections.abc import Mapping
from dataclasses import dataclass, fields, is_dataclass
from enum import StrEnum

from evsyn.audit.ascertainment import period_years
from evsyn.audit.benchmark import Benchmark, benchmark
from evsyn.audit.case_mix import MixRow, case_mix
from evsyn.audit.comparable import Comparable, Differs, comparable
from evsyn.audit.comparison import Comparison, compare
from evsyn.audit.counts import UnitTally, tallies
from evsyn.audit.predictive import MOST_CASES, knows_spread, spread_used
from evsyn.audit.verdict import Verdict
from evsyn.cells.cell import Question
from evsyn.effects.intervals import clopper_pearson, one_sided_full_limit, one_sided_zero_limit
from evsyn.extraction.plan import Plan
from evsyn.extraction.unit import Unit
from evsyn.pooling.answer import Show
from evsyn.pooling.tables import PooledTable
from evsyn.terms import OVERALL, UNPLACED, Better, CountedBy, Interval, Source

LEVEL = 0.95


class Reason(StrEnum):
    """Why a count is not compared, or gets no verdict."""

    NOT_POOLED = "not_pooled"
    NO_STUDY = "no_study"
    ONE_STUDY = "one_study"
    TWO_STUDIES = "two_studies"
    ALL_ZERO = "all_zero"
    ALL_FULL = "all_full"
    REFUSED = "not_pooled_by_plan"
    NO_READING = "no_row_to_read"
    BASIS = "basis_differs"
    TOO_MANY_CASES = "too_many_cases"
    CASE_MIX = "case_mix"
    FEW_STUDIES = "three_or_four_studies"
    NO_SPREAD = "spread_unknown"
    TOO_FEW_CASES = "too_few_cases"
    WINDOW = "window_forbids_it"


class Caveat(StrEnum):
    """What to bear in mind, beside how the denominators and windows differ."""

    UNRELIABLE = "unreliable"
    SPREAD_GUESSED = "spread_guessed"
    SPREAD_NEAR_NOTHING = "spread_near_nothing"
    UNPLACED = "mixed_or_not_stated"
    SPLIT = "groups_not_added"
    PARTIAL = "groups_missing"
    NOT_BY_PATIENT = "not_counted_by_patient"


_NO_ROW = {
    Show.NOTHING: Reason.NO_STUDY,
    Show.ONE: Reason.ONE_STUDY,
    Show.TWO: Reason.TWO_STUDIES,
    Show.ALL_ZERO: Reason.ALL_ZERO,
    Show.ALL_FULL: Reason.ALL_FULL,
    Show.REFUSED: Reason.REFUSED,
}


@dataclass(frozen=True, slots=True)
class Standing:
    """One count of a unit, and where it stands.

    Parameters
    ----------
    outcome, stratum, level : str
        What was counted; stratum and level are ``overall`` for the unit's whole.
    events, total : int
        The count.
    basis, window : str
        Its denominator basis and window.
    better : Better
        Whether fewer or more events are welcome.
    interval : Interval
        Exact two-sided 95% interval.
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
    basis: str
    window: str
    better: Better
    interval: Interval
    one_sided: float | None
    benchmark: Benchmark | None
    comparison: Comparison | None
    reason: Reason | None
    differs: tuple[Differs, ...]
    caveats: tuple[Caveat, ...]
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
        plain = {field.name: _plain(getattr(self, field.name)) for field in fields(self)}
        return {"question": self.question.key, **plain}


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
    reason = _no_comparison(tally, held, judged)
    comparison = None
    if held is not None and reason is None:
        comparison = compare(
            tally.events,
            tally.total,
            held.answer,
            better=better,
            years=period_years(unit),
            more=judged.more,
            fewer=judged.fewer,
        )
        reason = _no_verdict(comparison, held, tally.total)
    is_pooled = plan.outcomes[question.outcome].do_not_pool is None
    shows_mix = question.stratum == OVERALL and is_pooled
    return Standing(
        outcome=question.outcome,
        stratum=question.stratum,
        level=question.level,
        events=tally.events,
        total=tally.total,
        basis=tally.basis,
        window=tally.window,
        better=better,
        interval=exact_interval(tally.events, tally.total),
        one_sided=_one_sided(tally.events, tally.total),
        benchmark=None if held is None else benchmark(held, tuple(unit.own_studies)),
        comparison=comparison,
        reason=reason,
        differs=judged.differs,
        caveats=_caveats(tally, unit, held, comparison),
        mix=case_mix(unit, plan, question.outcome, pooled) if shows_mix else (),
        sources=tally.sources,
    )


def exact_interval(events: int, total: int) -> Interval:
    """Return the exact two-sided 95% interval of one count."""
    low, high = clopper_pearson([events], [total], level=LEVEL)
    return Interval(float(low[0]), float(high[0]), LEVEL, "clopper_pearson")


def _one_sided(events: int, total: int) -> float | None:
    if events == 0:
        return float(one_sided_zero_limit([total])[0])
    if events == total:
        return float(one_sided_full_limit([total])[0])
    return None


def _no_comparison(tally: UnitTally, held: PooledTable | None, judged: Comparable) -> Reason | None:
    if held is None:
        return Reason.NOT_POOLED
    show = held.answer.show
    if show in _NO_ROW:
        return _NO_ROW[show]
    reading = held.answer.reading
    if reading is None or spread_used(reading) is None:
        return Reason.NO_READING
    if not judged.at_all:
        return Reason.BASIS
    if tally.total > MOST_CASES:
        return Reason.TOO_MANY_CASES
    return Reason.CASE_MIX if tally.question.stratum == OVERALL else None


def _no_verdict(comparison: Comparison, held: PooledTable, total: int) -> Reason | None:
    if comparison.verdict is not Verdict.NONE:
        return None
    if not held.answer.show.verdict:
        return Reason.FEW_STUDIES
    reading = held.answer.reading
    if reading is not None and not knows_spread(reading):
        return Reason.NO_SPREAD
    reach = comparison.limits
    # The range leaves room on neither side, whatever may be said.
    if reach.low == 0 and reach.high == total:
        return Reason.TOO_FEW_CASES
    return Reason.WINDOW


def _caveats(
    tally: UnitTally, unit: Unit, held: PooledTable | None, comparison: Comparison | None
) -> tuple[Caveat, ...]:
    show = None if held is None or comparison is None else held.answer.show
    told = {
        Caveat.UNRELIABLE: show is Show.FEW,
        Caveat.SPREAD_GUESSED: show in (Show.FEW, Show.SOME),
        Caveat.SPREAD_NEAR_NOTHING: comparison is not None and comparison.used_larger_spread,
        Caveat.UNPLACED: tally.question.level == UNPLACED,
        Caveat.SPLIT: tally.is_split,
        Caveat.PARTIAL: tally.is_partial,
        Caveat.NOT_BY_PATIENT: unit.counted_by is not CountedBy.PATIENT,
    }
    return tuple(caveat for caveat, holds in told.items() if holds)


def _plain(value: object) -> object:
    if isinstance(value, StrEnum):
        return str(value)
    if is_dataclass(value) and not isinstance(value, type):
        return {field.name: _plain(getattr(value, field.name)) for field in fields(value)}
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    return value
