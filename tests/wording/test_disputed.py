"""What is said otherwise of a changed pool is just what its sentence says in other words."""

import re
from itertools import product

import numpy as np
import pytest

from evsyn.cells.cell import Cell, CellTable, Question
from evsyn.pooling.choose import answer_tables
from evsyn.pooling.disputed import DisputedStudy, Variant
from evsyn.pooling.tables import PooledTable
from evsyn.wording.disputed import (
    StudySaid,
    disputed_sentence,
    otherwise_lines,
    says_otherwise,
)
from evsyn.wording.pooled import pooled_sentence

#: Sets of counts whose sentences differ in every way they can.
SETS = {
    "two": [(1, 20), (2, 20)],
    "three": [(1, 20), (2, 20), (9, 30)],
    "none": [(0, 20)] * 4,
    "five": [(1, 20), (2, 20), (9, 30), (8, 30), (5, 60)],
    "five, alike": [(2, 40)] * 5,
    "five, two-step": [(9, 40), (20, 40), (12, 60), (30, 61), (14, 40)],
    "five, wide": [(1, 20), (18, 20), (9, 30), (28, 30), (0, 30)],
    "ten": [(1, 20), (2, 20), (9, 30), (8, 30), (5, 60)] * 2,
    "ten, more": [(1, 20), (2, 20), (9, 30), (8, 30), (7, 60)] * 2,
}


def pools() -> dict[str, PooledTable]:
    tables = [
        CellTable(
            Question("o"),
            tuple(
                Cell(f"s{n}", f"S {n}", None, x, total, "all", "ever", frozenset(), ())
                for n, (x, total) in enumerate(counts)
            ),
        )
        for counts in SETS.values()
    ]
    answers = answer_tables(tables, between="dersimonian_laird", level=0.95)
    return dict(zip(SETS, map(PooledTable, tables, answers), strict=True))


POOLS = pools()


def frame(pooled: PooledTable) -> str:
    """Return the sentence with each number taken out, also one written as a bound."""
    said = pooled_sentence(pooled, event="event", group="")
    return re.sub(r"(?:under |over )?\d(?:[\d.,]*\d)?", "#", said)


PAIRS = [
    (one, other)
    for one, other in product(SETS, SETS)
    if POOLS[one].answer.show.pooled and one != other
]


@pytest.mark.parametrize(("one", "other"), PAIRS)
def test_something_is_said_otherwise_where_the_words_differ(one: str, other: str) -> None:
    base, variant = POOLS[one], POOLS[other]
    differ = frame(base) != frame(variant)
    assert bool(says_otherwise(base, variant, target=None)) is differ


def test_the_pairs_hold_sentences_alike_and_unlike() -> None:
    alike = {frame(POOLS[one]) == frame(POOLS[other]) for one, other in PAIRS}
    assert alike == {True, False}


GOLDEN = {
    ("five", "two"): ("nothing is pooled",),
    ("five", "three"): ("no range for a new setting is given",),
    ("three", "five"): ("a range for a new setting is given",),
    ("five, two-step", "five"): (
        "the exact binomial-normal model is read",
        "the studies constrain a new setting",
    ),
    ("ten", "five"): ("the spread is called a rough guess",),
    ("five", "ten"): ("the spread is not called a rough guess",),
    ("five", "five, alike"): ("next to no spread is seen between the studies",),
    ("five, alike", "five"): ("some spread is seen between the studies",),
    ("five", "five, wide"): ("the studies do not constrain a new setting",),
    ("five, wide", "five"): ("the studies constrain a new setting",),
    ("ten", "ten, more"): (),
}


@pytest.mark.parametrize("pair", GOLDEN, ids=" to ".join)
def test_what_is_said_otherwise(pair: tuple[str, str]) -> None:
    one, other = pair
    assert says_otherwise(POOLS[one], POOLS[other], target=None) == GOLDEN[pair]


def test_a_rate_of_the_plan_that_the_interval_crosses_is_told() -> None:
    base, variant = POOLS["ten"], POOLS["ten, more"]
    before, after = (one.answer.reading.pooled for one in (base, variant))
    between = float(np.mean([before.low, after.low]))
    (said,) = says_otherwise(base, variant, target=between)
    assert said.startswith("the interval comes to lie above the plan's rate of ")
    (said,) = says_otherwise(variant, base, target=between)
    assert said.startswith("the interval comes to hold the plan's rate of ")
    assert says_otherwise(base, variant, target=0.9) == ()


def study(*said_at: int, without: tuple[str, ...] = ()) -> StudySaid:
    base = POOLS["ten"]
    counts = tuple(Variant(by, base, 0.0) for by in range(-3, 4))
    row = DisputedStudy(base.table.cells[2], counts, Variant(None, base, 0.0), ())
    words = tuple(("it turns",) if by in said_at else () for by in range(-3, 4))
    return StudySaid(row, words, without)


def test_the_fewest_events_that_change_it_are_told() -> None:
    assert study().fewest is None
    assert study(-3, 2, 3).fewest == 2
    assert otherwise_lines([study(), study(-3, 2, 3), study(-1, 1, without=("it goes",))]) == [
        "S 2, 9 of 30. With 2 events more: it turns.",
        "S 2, 9 of 30. With 1 event fewer: it turns. With 1 event more: it turns. Left out: it "
        "goes.",
    ]


def test_how_many_studies_change_it_is_told() -> None:
    said = disputed_sentence([study(), study(1), study(without=("it goes",))], target=0.06)
    assert "on which side of 6.0% the interval lies" in said
    assert said.endswith("for 1 of 3 studies by a count, and for 1 by leaving it out.")
    assert disputed_sentence([], target=None) == (
        "Nothing is pooled here, so no count can change an answer."
    )
