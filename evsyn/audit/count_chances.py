"""How likely every count is of which one is the unit's own, for figures that show them all."""

from collections.abc import Mapping
from dataclasses import dataclass

from evsyn.audit.power import Notice
from evsyn.audit.predictive import predictive, same_rate
from evsyn.audit.reasons import Reason
from evsyn.audit.shared_draw import LevelPool, shared_draw, shared_typical
from evsyn.audit.standardised import Standardised
from evsyn.audit.standing import Standing
from evsyn.audit.verdict import Limits
from evsyn.cells.cell import Question
from evsyn.effects.arguments import Floats
from evsyn.pooling.answer import Reading
from evsyn.pooling.tables import PooledTable


@dataclass(frozen=True, slots=True, eq=False)
class CountChances:
    """The chances behind one comparison; nothing here but ``reason`` depends on the own count.

    Parameters
    ----------
    ordinary : ndarray
        Chance of each count among ordinary new units of the same cases, shape ``(cases + 1,)``.
    average : ndarray
        The same if every unit shared the typical rate.
    limits : Limits
        Range, and the counts at which a verdict would be given.
    judged : bool
        Whether a verdict could be given.
    reason : Reason or None
        Why there is none; where one could be given this depends on the count.
    notice : Notice or None
        What the cases could have shown; ``None`` where the risk cannot rise.
    """

    ordinary: Floats
    average: Floats
    limits: Limits
    judged: bool
    reason: Reason | None
    notice: Notice | None


def level_chances(standing: Standing, pooled: PooledTable) -> CountChances | None:
    """Return the chances of a level's count; ``None`` where it is not compared.

    Parameters
    ----------
    standing : Standing
        The count.
    pooled : PooledTable
        The pool it was set against.
    """
    comparison, reading, k = standing.comparison, pooled.answer.reading, pooled.answer.k
    if comparison is None or reading is None:
        return None
    return CountChances(
        ordinary=predictive(reading, k).pmf(standing.total),
        average=same_rate(reading, k).pmf(standing.total),
        limits=comparison.limits,
        judged=comparison.judged,
        reason=standing.reason,
        notice=comparison.power,
    )


def whole_chances(found: Standardised, pooled: Mapping[Question, PooledTable]) -> CountChances:
    """Return the chances of a whole count, among ordinary new units with the unit's case mix.

    Parameters
    ----------
    found : Standardised
        The comparison.
    pooled : mapping of Question to PooledTable
        The pools of its levels.
    """
    pools = []
    for level in found.levels:
        answer = pooled[level.question].answer
        pools.append(LevelPool(level.total, _row(answer.reading), answer.k))
    return CountChances(
        ordinary=shared_draw(pools).pmf(),
        average=shared_typical(pools).pmf(),
        limits=found.limits,
        judged=found.judged,
        reason=found.reason,
        notice=found.notice,
    )


def _row(reading: Reading | None) -> Reading:
    if reading is None:
        raise ValueError("a level of the whole has no row to read")
    return reading
