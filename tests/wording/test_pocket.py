"""What the card says, and what it says not to say, follows the answer."""

from types import SimpleNamespace

import pytest

from evsyn.pooling.answer import Show
from evsyn.pooling.difference import Difference, NoTest
from evsyn.pooling.strata_test import Contrast, StrataStatus, StrataTest
from evsyn.wording.pocket import NOT_HERE, Prompt, left_off
from evsyn.wording.pocket_pool import pool_prompt
from evsyn.wording.pocket_strata import short_difference, strata_prompt, strata_question

WORDS = {"a": "palliation", "b": "bridge"}


def difference_of(p, low, high, sizes=(9, 9)):
    contrast = Contrast("a", "b", (low + high) / 2, 0.3, low, high)
    return Difference(
        StrataTest(
            "exact_likelihood_ratio",
            StrataStatus.TESTED,
            ("a", "b"),
            sizes,
            (),
            0.95,
            p=p,
            differences=(contrast,),
        )
    )


def never(difference):
    return strata_prompt("Intent", ["palliation", "bridge"], difference, ["x"], []).never


def test_what_is_said_at_once_is_what_is_needed():
    prompt = Prompt("Q?", ("a", "b", "c"), "x", needed=2)
    assert (prompt.at_once, prompt.if_asked) == ("a b", "c")
    assert prompt.without_last().if_asked == ""


@pytest.mark.parametrize(
    ("sentences", "questions", "said"),
    [(0, 0, ""), (1, 0, "1 sentence;"), (3, 2, "3 sentences and 2 questions;")],
)
def test_what_is_left_off_is_counted(sentences, questions, said):
    assert said in left_off(sentences, questions)
    assert bool(left_off(sentences, questions)) is bool(said)


def test_levels_are_asked_by_their_words():
    assert strata_question("Route", ["a", "b", "c"]) == "Route: a, b or c?"
    assert strata_question("Route", ["a"]) == "Route: a?"


def test_a_difference_is_said_with_its_p_and_not_with_a_cause():
    found = difference_of(0.004, 0.2, 1.2)
    said = short_difference(found, WORDS)
    assert said.startswith("They differ by more than chance allows (P 0.004)")
    assert "palliation against bridge 2.01 (1.22 to 3.32)" in said
    assert never(found).startswith('"It comes from intent"')


def test_none_shown_is_not_none():
    found = difference_of(0.4, -0.5, 1.0)
    assert short_difference(found, WORDS).startswith("Not shown to differ (P 0.40)")
    assert never(found).startswith('"There is no difference"')


def test_limits_and_p_that_part_are_leant_on_by_nobody():
    assert "lean on neither" in short_difference(difference_of(0.049, -0.01, 1.0), WORDS)


def test_few_studies_are_exploratory():
    assert "Exploratory" in short_difference(difference_of(0.4, -0.5, 1.0, sizes=(3, 9)), WORDS)
    assert "Exploratory" not in short_difference(difference_of(0.4, -0.5, 1.0), WORDS)


@pytest.mark.parametrize("reason", NoTest)
def test_without_a_test_nothing_is_better(reason):
    assert never(Difference(None, reason=reason)).startswith('"One is better than the other"')


@pytest.mark.parametrize("show", [show for show in Show if not show.pooled])
def test_what_is_no_pool_is_not_said_as_one(show):
    answer = SimpleNamespace(show=show, reading=None, disagreements=())
    outcome = SimpleNamespace(label="Perforation", event="perforation")
    prompt = pool_prompt(outcome, answer, "A sentence.", "")
    assert prompt.say == ("A sentence.",)
    assert prompt.never
    assert "%" not in prompt.never


def test_equipment_drugs_and_cost_are_not_here():
    assert "not in this review" in NOT_HERE.at_once
