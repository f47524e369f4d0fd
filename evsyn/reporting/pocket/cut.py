"""What a pocket card leaves off where room is short: by one rule, and told."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from evsyn.reporting.pocket.card import Card
from evsyn.wording.pocket import Prompt


@dataclass(frozen=True, slots=True)
class Cut:
    """A card, and how much of it was left off.

    Parameters
    ----------
    card : Card
        What is left.
    sentences, questions : int
        How many sentences, and how many whole questions, are left off.
    """

    card: Card
    sentences: int
    questions: int


def cuts(card: Card) -> Iterator[Cut]:
    """Yield the card whole, then with less and less of it.

    What is spare goes first: its last sentences, then its question. Then the answer with most
    sentences to spare loses its last, of two the lower on the card, until each has no more than it
    needs. Then whole questions go, the longest first, of two the lower; the first question stays
    to the end.

    Parameters
    ----------
    card : Card
        A card.
    """
    prompts = list(card.prompts)
    sentences = questions = 0
    yield Cut(card, sentences, questions)
    while spare := [i for i, prompt in enumerate(prompts) if prompt.is_spare]:
        at = spare[-1]
        if len(prompts[at].say) > prompts[at].needed:
            prompts[at] = prompts[at].without_last()
            sentences += 1
        else:
            del prompts[at]
            questions += 1
        yield Cut(replace(card, prompts=tuple(prompts)), sentences, questions)
    while True:
        most, at = max((len(p.say) - p.needed, i) for i, p in enumerate(prompts))
        if most > 0:
            prompts[at] = prompts[at].without_last()
            sentences += 1
        elif len(prompts) > 1:
            _, at = max((_letters(p), i) for i, p in enumerate(prompts[1:], start=1))
            del prompts[at]
            questions += 1
        else:
            return
        yield Cut(replace(card, prompts=tuple(prompts)), sentences, questions)


def _letters(prompt: Prompt) -> int:
    return len(prompt.question) + sum(map(len, prompt.say)) + len(prompt.never)
