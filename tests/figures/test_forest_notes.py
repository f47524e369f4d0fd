"""Sentences over and under the figure."""

from itertools import combinations
from pathlib import Path

import pytest

from evsyn.audit.reasons import Reason
from evsyn.cells.cell import Cell, Question
from evsyn.extraction.load import read_review
from evsyn.pooling.answer import PoolAnswer, Show
from evsyn.pooling.difference import Difference, NoTest
from evsyn.pooling.review import answer_questions
from evsyn.pooling.strata_test import Contrast, StrataStatus, StrataTest
from evsyn.terms import AS_PRINTED, NOT_STATED, UNPLACED
from evsyn.wording.forest import words_at
from evsyn.wording.forest_notes import (
    THE_WHOLE,
    not_drawn_sentence,
    rows_caption,
    short_difference,
    short_sentence,
)
from evsyn.wording.wanted import wanted_and_found

ROOT = Path(__file__).parent.parent.parent
MIXED = Question("perforation", "intent", UNPLACED)
DEMO = read_review(ROOT / "studies" / "demo")


def cell(basis: str, window: str) -> Cell:
    return Cell("2000-a", "A", 2000, 1, 20, basis, window, frozenset(), ())


def difference(k: tuple[int, ...] = (9, 9), *, p: float = 0.06, shared: int = 0) -> Difference:
    levels = tuple("abc"[: len(k)])
    contrasts = tuple(
        Contrast(one, other, 0.5, 0.3, -0.1, 1.1) for one, other in combinations(levels, 2)
    )
    test = StrataTest(
        "exact_likelihood_ratio", StrataStatus.TESTED, levels, k, (), 0.95,
        tau2=0.2, statistic=3.9, p=p, differences=contrasts,
    )  # fmt: skip
    return Difference(test, shared=tuple(f"s{i}" for i in range(shared)))


def empty(show: Show) -> PoolAnswer:
    return PoolAnswer((), (), show, None, None, {}, None)


def test_what_is_wanted_is_counted_among_what_was_found() -> None:
    cells = [
        cell("attempted", "30_days"),
        cell("attempted", NOT_STATED),
        cell(AS_PRINTED, "follow_up"),
        cell("placed", NOT_STATED),
    ]
    assert wanted_and_found(DEMO.plan, "perforation", cells) == (
        "Wanted: of patients in whom a stent was attempted, within 30 days. Found: 1 of 4 counts "
        "within 30 days (2 not stated), 2 of 4 over patients in whom a stent was attempted (1 not "
        "stated)."
    )


def test_what_is_stated_everywhere_is_not_called_unstated() -> None:
    said = wanted_and_found(DEMO.plan, "perforation", [cell("attempted", "30_days")])
    assert "not stated" not in said
    assert "Found: 1 of 1 count within 30 days, 1 of 1 over" in said


def test_without_a_count_only_the_wish_is_said() -> None:
    assert wanted_and_found(DEMO.plan, "perforation", []) == (
        "Wanted: of patients in whom a stent was attempted, within 30 days."
    )


@pytest.mark.parametrize(
    ("found", "words"),
    [
        (difference(), "Difference: P 0.06; compared between studies."),
        (difference(shared=5), "Difference: P 0.06; compared between studies; 5 studies in both."),
        (
            difference((9, 3, 9), p=0.004, shared=1),
            "Difference: P 0.004, exploratory; compared between studies; 1 study in more than one "
            "level.",
        ),
        (
            Difference(None, reason=NoTest.BY_PLAN),
            "No test of difference: the plan forbids pooling.",
        ),
    ],
)
def test_difference_on_a_slide(found: Difference, words: str) -> None:
    assert short_difference(found) == words


def test_what_of_the_unit_is_not_drawn_is_named_with_its_reason() -> None:
    assert not_drawn_sentence([]) == ""
    left_out = [
        ("palliation", Reason.REFUSED),
        (THE_WHOLE, Reason.REFUSED),
        ("bridge to surgery", None),
    ]
    assert not_drawn_sentence(left_out) == (
        "Not drawn: palliation, the unit as a whole (the plan does not pool this outcome); bridge "
        "to surgery (counted on another denominator or window than the row drawn)."
    )


@pytest.mark.parametrize(
    ("show", "median", "ranged"),
    [
        (Show.NOTHING, False, False),
        (Show.TWO, False, False),
        (Show.REFUSED, False, False),
        (Show.FEW, True, False),
        (Show.SOME, True, True),
    ],
)
def test_caption_speaks_of_pooled_values_and_ranges_where_they_are_drawn(
    show: Show, median: bool, ranged: bool
) -> None:
    said = rows_caption(DEMO.plan, [empty(Show.ONE), empty(show)])
    assert said.startswith("Study rows: exact (Clopper-Pearson) intervals, 95%.")
    assert ("A pooled value is the median setting" in said) == median
    assert ("Headline" in said) == median
    assert ("range for a new setting" in said) == ranged
    assert said.endswith(".")


def test_short_sentences_say_their_level_or_that_there_is_no_range() -> None:
    many = answer_questions(DEMO, [Question("perforation")])[Question("perforation")].answer
    assert short_sentence(many).startswith("95% range for an ordinary new setting: ")
    few = answer_questions(DEMO, [MIXED])[MIXED].answer
    assert few.show is Show.FEW
    assert short_sentence(few) == f"Only {few.k} studies: no range for a new setting."
    assert short_sentence(empty(Show.ALL_ZERO)) == ""


def test_words_carry_the_level_of_the_intervals() -> None:
    words = words_at(0.9)
    assert words.rate == "rate (90% interval)"
    assert words.prediction.startswith("90% range")
