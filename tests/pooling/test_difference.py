"""One test of difference between levels: which form, which levels, and what is said of it."""

import numpy as np
import pytest

from evsyn.cells.cell import Cell, CellTable, Question
from evsyn.effects.proportions import logit_effects
from evsyn.pooling.choose import answer_tables
from evsyn.pooling.difference import NoTest, stratum_difference
from evsyn.pooling.strata_exact import strata_test_exact
from evsyn.pooling.strata_two_step import strata_test_two_step
from evsyn.pooling.tables import PooledTable
from evsyn.terms import UNPLACED
from evsyn.wording.difference import difference_sentence

Counts = list[tuple[str, int, int]]
OLD: Counts = [("a", 2, 20), ("b", 3, 25), ("c", 1, 18), ("d", 4, 30)]
NEW: Counts = [("e", 3, 90), ("f", 2, 80), ("g", 6, 110), ("h", 1, 70), ("i", 5, 130)]
MANY_OLD: Counts = [("a", 12, 40), ("b", 13, 45), ("c", 11, 38)]
MANY_NEW: Counts = [("e", 23, 90), ("f", 12, 80), ("g", 16, 110)]


def answers(refused: bool = False, **levels: Counts) -> dict[Question, PooledTable]:
    tables = [
        CellTable(
            Question("o", "s", name),
            tuple(
                Cell(study, study, None, x, n, "attempted", "30_days", frozenset(), ())
                for study, x, n in counts
            ),
        )
        for name, counts in levels.items()
    ]
    found = answer_tables(
        tables, between="dersimonian_laird", level=0.95, refused=["o"] if refused else []
    )
    return {t.question: PooledTable(t, a) for t, a in zip(tables, found, strict=True)}


def flat(*levels: tuple[str, Counts]) -> tuple[np.ndarray, np.ndarray, list[str]]:
    rows = [(name, x, n) for name, counts in levels for _, x, n in counts]
    return np.array([r[1] for r in rows]), np.array([r[2] for r in rows]), [r[0] for r in rows]


def test_few_events_in_any_level_bring_the_exact_form() -> None:
    found = stratum_difference(answers(old=OLD, new=NEW), "o", "s", ["old", "new"])
    assert found.test is not None
    assert found.test == strata_test_exact(*flat(("old", OLD), ("new", NEW)))


def test_enough_events_in_every_level_bring_the_two_step_form() -> None:
    found = stratum_difference(answers(old=MANY_OLD, new=MANY_NEW), "o", "s", ["old", "new"])
    events, total, labels = flat(("old", MANY_OLD), ("new", MANY_NEW))
    effects = logit_effects(events, total)
    assert found.test is not None
    assert found.test == strata_test_two_step(effects.estimate, effects.variance, labels)


def test_levels_under_three_studies_and_the_gathering_level_take_no_part() -> None:
    held = answers(old=OLD, new=NEW, few=[("x", 1, 9), ("y", 2, 9)], **{UNPLACED: OLD})
    found = stratum_difference(held, "o", "s", ["old", "new", "few", UNPLACED])
    assert found.test is not None
    assert found.test.levels == ("old", "new")


def test_one_level_large_enough_is_no_comparison() -> None:
    held = answers(old=OLD, new=NEW[:2])
    assert stratum_difference(held, "o", "s", ["old", "new"]).reason is NoTest.TOO_FEW


def test_a_plan_that_refuses_pooling_refuses_the_test() -> None:
    held = answers(refused=True, old=OLD, new=NEW)
    assert stratum_difference(held, "o", "s", ["old", "new"]).reason is NoTest.BY_PLAN


def test_studies_in_two_levels_are_counted() -> None:
    both: Counts = [("a", 3, 90), *NEW]
    found = stratum_difference(answers(old=OLD, new=both), "o", "s", ["old", "new"])
    assert found.shared == ("a",)
    assert "1 study stands in more than one level" in difference_sentence(
        found, {"old": "old", "new": "new"}
    )


def test_the_sentence_warns_where_levels_are_small() -> None:
    found = stratum_difference(answers(old=OLD, new=NEW), "o", "s", ["old", "new"])
    said = difference_sentence(found, {"old": "old devices", "new": "new devices"})
    assert "old devices against new devices" in said
    assert "Exploratory" in said
    assert "era, centre and case mix move with them" in said
    assert "significant" not in said


def test_equal_levels_do_not_differ() -> None:
    found = stratum_difference(answers(old=OLD, new=OLD), "o", "s", ["old", "new"])
    assert found.test is not None
    assert found.test.statistic == pytest.approx(0, abs=1e-6)
    assert found.test.p == pytest.approx(1, abs=1e-3)
