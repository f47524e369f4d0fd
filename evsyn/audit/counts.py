"""A unit's counts, added up by level of each stratum."""

from collections.abc import Sequence
from dataclasses import dataclass

from evsyn.cells.cell import Question
from evsyn.cells.levels import labelled_strata, level_names
from evsyn.extraction.plan import Plan
from evsyn.extraction.unit import Group, Unit
from evsyn.terms import MIXED, NOT_STATED, UNPLACED, Source


@dataclass(frozen=True, slots=True)
class UnitTally:
    """One count of the unit, added up over the groups of a level.

    Parameters
    ----------
    question : Question
        Outcome and level.
    events, total : int
        The count, of cases whose outcome is known.
    unknown : int
        Cases of the same denominator whose outcome is not known.
    basis, window : str
        Its denominator basis and window.
    is_split : bool
        Whether other groups of the level count on another basis or window, and so stand apart.
    is_partial : bool
        Whether groups of the level do not report the outcome at all.
    sources : tuple of Source
        Where the counts were written.
    """

    question: Question
    events: int
    total: int
    unknown: int
    basis: str
    window: str
    is_split: bool
    is_partial: bool
    sources: tuple[Source, ...]


def tallies(unit: Unit, plan: Plan) -> tuple[UnitTally, ...]:
    """Add up a unit's counts for every outcome, by level and over all.

    Outcomes and levels stand in the plan's order; a stratum that no group labels is passed over;
    groups whose level is mixed or not stated share one level. Counts on different bases or
    windows are not added: each stands for itself. A level of which no outcome is known gives no
    count; its cases are among the unknown ones of the whole.

    Parameters
    ----------
    unit : Unit
        The unit's figures.
    plan : Plan
        The plan whose words it uses.
    """
    made: list[UnitTally] = []
    for outcome in plan.outcomes:
        for stratum, levels in unit_levels(unit, plan).items():
            for level, groups in levels.items():
                made += count_groups(Question(outcome, stratum, level), groups)
        made += count_groups(Question(outcome), unit.groups)
    return tuple(made)


def unit_levels(unit: Unit, plan: Plan) -> dict[str, dict[str, list[Group]]]:
    """Return the unit's groups by stratum and level, levels without a group left out."""
    found: dict[str, dict[str, list[Group]]] = {}
    for stratum, meant in labelled_strata(plan).items():
        if not any(stratum in group.strata for group in unit.groups):
            continue
        levels = {
            level: [group for group in unit.groups if group_level(group, stratum) == level]
            for level in level_names(meant)
        }
        found[stratum] = {level: groups for level, groups in levels.items() if groups}
    return found


def group_level(group: Group, stratum: str) -> str:
    """Return the group's level; mixed and unlabelled groups share one."""
    level = group.strata.get(stratum, NOT_STATED)
    return UNPLACED if level in (MIXED, NOT_STATED) else level


def count_groups(question: Question, groups: Sequence[Group]) -> list[UnitTally]:
    """Add up the groups of one level, apart for each basis and window they count on."""
    counts = [g.outcomes[question.outcome] for g in groups if question.outcome in g.outcomes]
    kinds = list(dict.fromkeys((count.of, count.window) for count in counts))
    made = []
    for basis, window in kinds:
        alike = [count for count in counts if (count.of, count.window) == (basis, window)]
        if all(count.unknown == count.total for count in alike):
            continue
        made.append(
            UnitTally(
                question=question,
                events=sum(count.events for count in alike),
                total=sum(count.total - count.unknown for count in alike),
                unknown=sum(count.unknown for count in alike),
                basis=basis,
                window=window,
                is_split=len(kinds) > 1,
                is_partial=len(counts) < len(groups),
                sources=tuple(count.source() for count in alike),
            )
        )
    return made
