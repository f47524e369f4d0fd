"""The chances a figure draws are those a verdict was given by."""

from pathlib import Path

import numpy as np
import pytest

from evsyn.audit.count_chances import level_chances, whole_chances
from evsyn.audit.standardisation import standardisation
from evsyn.audit.standing import standings
from evsyn.audit.unit_audit import unit_answers
from evsyn.audit.verdict import tails
from evsyn.extraction.load import read_review, read_unit

DEMO = Path(__file__).parents[2] / "studies" / "demo"


@pytest.fixture(scope="module")
def audited():
    review = read_review(DEMO)
    unit = read_unit(DEMO / "unit-hollowmere.yaml", review.plan).unit
    answers = unit_answers(review, unit)
    return review.plan, unit, answers, standings(unit, answers, review.plan)


def test_of_a_level(audited):
    _, _, answers, placed = audited
    compared = [standing for standing in placed if standing.comparison is not None]
    assert len(compared) > 3
    for standing in compared:
        found = level_chances(standing, answers[standing.question])
        assert found.ordinary.size == standing.total + 1
        assert found.ordinary.sum() == pytest.approx(1, abs=1e-6)
        for chances, told in (
            (found.ordinary, standing.comparison.ordinary),
            (found.average, standing.comparison.average),
        ):
            again = tails(chances, standing.events)
            assert again.tail_at_least == pytest.approx(told.tail_at_least)
            assert again.tail_at_most == pytest.approx(told.tail_at_most)
        assert found.limits is standing.comparison.limits


def test_of_a_whole(audited):
    plan, unit, answers, _ = audited
    answer = standardisation(unit, plan, "perforation", answers)
    found = whole_chances(answer.found, answers)
    assert found.ordinary.size == answer.total + 1
    for chances, told in (
        (found.ordinary, answer.found.ordinary),
        (found.average, answer.found.average),
    ):
        assert tails(chances, answer.events).tail_at_least == pytest.approx(told.tail_at_least)
    mean = np.arange(answer.total + 1) @ found.ordinary
    # The draw's t has heavier tails than the normal the expected count uses, so it lies above.
    assert mean >= answer.found.expected


def test_without_a_comparison_there_is_nothing_to_draw(audited):
    _, _, answers, placed = audited
    without = [standing for standing in placed if standing.comparison is None]
    assert without
    assert all(level_chances(item, answers[item.question]) is None for item in without)
