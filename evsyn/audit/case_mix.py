"""How the levels of each stratum weigh in a unit and in the pool."""

from collections.abc import Mapping
from dataclasses import dataclass

from evsyn.audit.counts import unit_levels
from evsyn.cells.cell import Question
from evsyn.cells.levels import labelled_strata, level_names
from evsyn.extraction.plan import Plan
from evsyn.extraction.unit import Unit
from evsyn.pooling.tables import PooledTable


@dataclass(frozen=True, slots=True)
class MixRow:
    """Cases of one level, in the unit and in the pooled studies."""

    stratum: str
    level: str
    unit_total: int
    pool_total: int


def case_mix(
    unit: Unit, plan: Plan, outcome: str, pooled: Mapping[Question, PooledTable]
) -> tuple[MixRow, ...]:
    """Return both mixes for one outcome, over the strata the unit labels.

    Levels that neither side holds are left out.

    Parameters
    ----------
    unit : Unit
        The unit's figures.
    plan : Plan
        The plan.
    outcome : str
        Outcome by its name.
    pooled : mapping of Question to PooledTable
        The pools by level; a level without one counts 0.
    """
    strata = labelled_strata(plan)
    rows = []
    for stratum, levels in unit_levels(unit, plan).items():
        for level in level_names(strata[stratum]):
            counts = (g.outcomes.get(outcome) for g in levels.get(level, []))
            ours = sum(count.total for count in counts if count is not None)
            held = pooled.get(Question(outcome, stratum, level))
            theirs = 0 if held is None else held.table.total
            if ours or theirs:
                rows.append(MixRow(stratum, level, ours, theirs))
    return tuple(rows)
