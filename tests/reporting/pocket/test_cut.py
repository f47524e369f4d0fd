"""What a card leaves off is settled by one rule, and counted."""

from dataclasses import replace

from evsyn.reporting.pocket.card import pocket_card
from evsyn.reporting.pocket.cut import cuts
from evsyn.wording.pocket import Prompt
from tests.reporting.pocket.reviews import content_of

CARD = replace(
    pocket_card(content_of("demo")),
    prompts=(
        Prompt("Own?", ("a", "b"), "x", needed=2),
        Prompt("One?", ("c", "d", "e"), "x"),
        Prompt("Two?", ("f", "g", "h"), "x"),
        Prompt("Long?", ("i" * 40,), "x"),
    ),
)
STEPS = list(cuts(CARD))


def said(cut):
    return [prompt.say for prompt in cut.card.prompts]


def test_nothing_is_left_off_at_first():
    assert STEPS[0].card is CARD
    assert (STEPS[0].sentences, STEPS[0].questions) == (0, 0)


def test_the_answer_with_most_to_spare_loses_its_last_and_of_two_the_lower():
    assert said(STEPS[1])[2] == ("f", "g")
    assert said(STEPS[1])[1] == ("c", "d", "e")
    assert said(STEPS[2])[1] == ("c", "d")
    assert [step.sentences for step in STEPS[:5]] == [0, 1, 2, 3, 4]


def test_what_is_needed_goes_only_with_its_question_and_the_longest_question_first():
    assert said(STEPS[4]) == [("a", "b"), ("c",), ("f",), ("i" * 40,)]
    assert said(STEPS[5]) == [("a", "b"), ("c",), ("f",)]
    assert [step.questions for step in STEPS[5:]] == [1, 2, 3]
    assert said(STEPS[-1]) == [("a", "b")]


def test_what_is_spare_goes_before_all_else():
    spare = Prompt("Others?", ("j", "k"), "x", is_spare=True)
    steps = list(cuts(replace(CARD, prompts=(*CARD.prompts[:3], spare, CARD.prompts[3]))))
    assert said(steps[1])[3] == ("j",)
    assert said(steps[2]) == said(STEPS[0])
    assert (steps[2].sentences, steps[2].questions) == (1, 1)
    assert said(steps[3]) == said(STEPS[1])
