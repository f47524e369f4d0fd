"""Over which levels a unit's whole can be held against pools of the same levels."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from itertools import product

from evsyn.audit.benchmark import Benchmark, benchmark
from evsyn.audit.comparable import Comparable, comparable
from evsyn.audit.counts import UnitTally, count_groups, group_level, unit_levels
from evsyn.audit.reasons import Reason, no_comparison
from evsyn.cells.cell import Question, question_at
from evsyn.cells.levels import labelled_strata, level_names
from evsyn.extraction.plan import Plan
from evsyn.extraction.unit import Group, Unit
from evsyn.pooling.answer import Reading
from evsyn.pooling.tables import PooledTable


class Stop(StrEnum):
    """Why a whole cannot be divided at all."""

    SPLIT = "groups_not_added"
    NO_STRATUM = "no_stratum_labelled"


@dataclass(frozen=True, slots=True)
class Refusal:
    """A division that cannot be used.

    Parameters
    ----------
    strata : tuple of str
        The strata it divides by; empty where no division can be used.
    reason : Reason or Stop
        Why.
    question : Question or None
        The level that stops it; ``None`` where no single one does.
    """

    strata: tuple[str, ...]
    reason: Reason | Stop
    question: Question | None = None


@dataclass(frozen=True, slots=True)
class DivisionLevel:
    """One level of a division: the unit's count, its pool, and how they differ."""

    tally: UnitTally
    held: PooledTable
    judged: Comparable
    benchmark: Benchmark

    @property
    def reading(self) -> Reading:
        """The row that is read of the pool.

        Raises
        ------
        ValueError
            If there is none, which no level of a division that can be used lacks.
        """
        if self.held.answer.reading is None:
            raise ValueError("there is no row to read")
        return self.held.answer.reading

    @property
    def expected(self) -> float:
        """Cases times the mean rate over settings."""
        return self.tally.total * self.reading.mean


def divisions(unit: Unit, plan: Plan) -> tuple[tuple[str, ...], ...]:
    """Return the strata a unit's whole may be divided by, the finest division first.

    All strata that its groups label, crossed; then each of them alone, in the plan's order.
    """
    labelled = tuple(unit_levels(unit, plan))
    crossed = (labelled,) if len(labelled) > 1 else ()
    return (*crossed, *((stratum,) for stratum in labelled))


def division_questions(unit: Unit, plan: Plan) -> tuple[Question, ...]:
    """Return every question whose pool a whole of the unit may need, for each outcome it reports.

    Parameters
    ----------
    unit : Unit
        The unit's figures.
    plan : Plan
        The plan.
    """
    asked: dict[Question, None] = {}
    for outcome in plan.outcomes:
        for strata in divisions(unit, plan):
            for tally in _tallies(outcome, strata, unit, plan):
                asked.setdefault(tally.question)
    return tuple(asked)


def divided(
    whole: UnitTally,
    strata: tuple[str, ...],
    unit: Unit,
    plan: Plan,
    pooled: Mapping[Question, PooledTable],
) -> tuple[DivisionLevel, ...] | Refusal:
    """Return the levels of a division with their pools, or why it cannot be used.

    One level without a pool it may be set against stops the division: to leave its cases out
    would change what is compared.

    Parameters
    ----------
    whole : UnitTally
        The unit's whole count.
    strata : tuple of str
        The strata to divide by.
    unit : Unit
        The unit's figures.
    plan : Plan
        The plan.
    pooled : mapping of Question to PooledTable
        The pools, the unit's own studies left out.

    Raises
    ------
    ValueError
        If one of the unit's own studies is in a pool.
    """
    levels = []
    for tally in _tallies(whole.question.outcome, strata, unit, plan):
        held = pooled.get(tally.question)
        judged = Comparable(())
        if held is not None and held.table.cells:
            judged = comparable(tally.basis, tally.window, held.table, plan)
        reason = no_comparison(tally, unit, held, judged, plan)
        if held is None or reason is not None:
            return Refusal(strata, reason or Reason.NOT_POOLED, tally.question)
        levels.append(DivisionLevel(tally, held, judged, benchmark(held, tuple(unit.own_studies))))
    shut = [level for level in levels if not (level.judged.more and level.judged.fewer)]
    # Where one window lets only more be said and another only fewer, neither may be said.
    more, fewer = (level.judged.more for level in levels), (level.judged.fewer for level in levels)
    if not (all(more) or all(fewer)):
        return Refusal(strata, Reason.WINDOW, shut[0].tally.question)
    return tuple(levels)


def _tallies(outcome: str, strata: tuple[str, ...], unit: Unit, plan: Plan) -> list[UnitTally]:
    """Add the unit's groups up by crossed level; a level of which nothing is known gives none."""
    declared = labelled_strata(plan)
    made = []
    for levels in product(*(level_names(declared[stratum]) for stratum in strata)):
        question = question_at(outcome, zip(strata, levels, strict=True))
        made += count_groups(question, [g for g in unit.groups if _levels(g, strata) == levels])
    return made


def _levels(group: Group, strata: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(group_level(group, stratum) for stratum in strata)
