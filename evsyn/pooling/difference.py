"""Do the levels of a stratum differ? One test of difference, asked of a pooled review."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from evsyn.cells.cell import Cell, Question
from evsyn.effects.proportions import logit_effects
from evsyn.pooling.answer import Show
from evsyn.pooling.choose import triggers
from evsyn.pooling.strata_exact import strata_test_exact
from evsyn.pooling.strata_test import LEAST_STUDIES, StrataStatus, StrataTest
from evsyn.pooling.strata_two_step import QBetween, q_between_levels, strata_test_two_step
from evsyn.pooling.tables import PooledTable
from evsyn.terms import UNPLACED

LEAST_LEVELS = 2


class NoTest(StrEnum):
    """Why there is no test of difference."""

    TOO_FEW = "fewer than two levels with three studies each"
    BY_PLAN = "the plan forbids pooling"
    UNSETTLED = "the model with one centre a level did not settle"


@dataclass(frozen=True, slots=True)
class Difference:
    """A test of difference between levels, or the reason why there is none.

    Parameters
    ----------
    test : StrataTest or None
        The test quoted: by the exact model where a few-events trigger fires in any level.
    q_between : QBetween or None
        The comparison most papers print; for comparison only.
    reason : NoTest or None
        Why there is no test.
    shared : tuple of str
        Studies that stand in more than one of the levels tested.
    """

    test: StrataTest | None
    q_between: QBetween | None = None
    reason: NoTest | None = None
    shared: tuple[str, ...] = ()


def stratum_difference(
    answers: Mapping[Question, PooledTable],
    outcome: str,
    stratum: str,
    levels: Sequence[str],
    *,
    level: float = 0.95,
) -> Difference:
    """Test the difference between the named levels of a stratum.

    The level that gathers mixed and not-stated arms takes no part, nor does a level with fewer
    than three studies.

    Parameters
    ----------
    answers : mapping
        Pooled answers by question.
    outcome, stratum : str
        Which outcome, by which stratum.
    levels : sequence of str
        Levels of the stratum.
    level : float
        Two-sided level of the limits of the differences.
    """
    named = [answers[Question(outcome, stratum, name)] for name in levels if name != UNPLACED]
    if any(pooled.answer.show is Show.REFUSED for pooled in named):
        return Difference(None, reason=NoTest.BY_PLAN)
    tested = cells_tested(answers, outcome, stratum, levels)
    if len(tested) < LEAST_LEVELS:
        return Difference(None, reason=NoTest.TOO_FEW)
    rows = [(name, cell) for name, cells in tested.items() for cell in cells]
    test, between = _tests(tested, rows, level)
    if test.status is not StrataStatus.TESTED:
        return Difference(None, between, NoTest.UNSETTLED)
    times = Counter(cell.study for _, cell in rows)
    shared = tuple(sorted(study for study, number in times.items() if number > 1))
    return Difference(test, between, None, shared)


def cells_tested(
    answers: Mapping[Question, PooledTable], outcome: str, stratum: str, levels: Sequence[str]
) -> dict[str, tuple[Cell, ...]]:
    """Return the rows of the levels that take part in a test: named, with three studies or more."""
    tables = {
        name: answers[Question(outcome, stratum, name)] for name in levels if name != UNPLACED
    }
    return {name: p.table.cells for name, p in tables.items() if p.answer.k >= LEAST_STUDIES}


def _tests(
    tested: Mapping[str, Sequence[Cell]], rows: Sequence[tuple[str, Cell]], level: float
) -> tuple[StrataTest, QBetween]:
    events = np.array([cell.events for _, cell in rows], dtype=np.int64)
    total = np.array([cell.total for _, cell in rows], dtype=np.int64)
    labels = [name for name, _ in rows]
    effects = logit_effects(events, total)
    between = q_between_levels(effects.estimate, effects.variance, labels)
    if any(_few_events(cells) for cells in tested.values()):
        return strata_test_exact(events, total, labels, level=level), between
    test = strata_test_two_step(effects.estimate, effects.variance, labels, level=level)
    return test, between


def _few_events(cells: Sequence[Cell]) -> bool:
    events = np.array([cell.events for cell in cells], dtype=np.int64)
    total = np.array([cell.total for cell in cells], dtype=np.int64)
    return bool(triggers(events, total))
