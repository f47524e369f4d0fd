"""Each count of a unit against its own count of an earlier period."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from evsyn.audit.comparable import comparable
from evsyn.audit.counts import tallies
from evsyn.audit.next_period import NextPeriod, next_period
from evsyn.audit.standing import Standing
from evsyn.cells.cell import Question
from evsyn.extraction.plan import Plan
from evsyn.extraction.unit import Unit
from evsyn.pooling.tables import PooledTable
from evsyn.terms import Better


@dataclass(frozen=True, slots=True)
class Change:
    """One level's count, set against the one before it.

    Parameters
    ----------
    question : Question
        Outcome and level.
    better : Better
        Whether fewer or more events are welcome.
    is_primary : bool
        Whether the plan names it as the one primary indicator.
    found : NextPeriod
        What the earlier count leaves likely, and the later count beside it.
    """

    question: Question
    better: Better
    is_primary: bool
    found: NextPeriod


def changes(
    earlier: Unit,
    standings: Sequence[Standing],
    pooled: Mapping[Question, PooledTable],
    plan: Plan,
) -> tuple[Change, ...]:
    """Set each count that is compared with a pool against the same count of an earlier period.

    Both periods must count over the same denominator and window; a count without such a
    counterpart is passed over, and so is the whole, whose case mix may have changed.

    Parameters
    ----------
    earlier : Unit
        The unit's figures of the earlier period.
    standings : sequence of Standing
        Where the later counts stand.
    pooled : mapping of Question to PooledTable
        The pools the later counts were compared with.
    plan : Plan
        The plan both periods use.
    """
    before = {(t.question, t.basis, t.window): t for t in tallies(earlier, plan)}
    found = []
    for standing in standings:
        tally = before.get((standing.question, standing.basis, standing.window))
        held = pooled.get(standing.question)
        if standing.comparison is None or tally is None or held is None:
            continue
        judged = comparable(standing.basis, standing.window, held.table, plan)
        made = next_period(
            (tally.events, tally.total),
            (standing.events, standing.total),
            held.answer,
            better=standing.better,
            more=judged.more,
            fewer=judged.fewer,
        )
        found.append(Change(standing.question, standing.better, standing.is_primary, made))
    return tuple(found)
