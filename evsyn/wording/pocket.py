"""The words of the pocket card: a question from the floor, what to say, what not to say."""

from dataclasses import dataclass, replace

from evsyn.extraction.plan import Outcome
from evsyn.terms import Source
from evsyn.wording.numbers import counted
from evsyn.wording.page import PageWords

SAY, IF_ASKED, DO_NOT_SAY = "SAY", "IF ASKED", "DO NOT SAY"


@dataclass(frozen=True, slots=True)
class Prompt:
    """One question from the floor, and its answer.

    Parameters
    ----------
    question : str
        The question, as it may be asked.
    say : tuple of str
        Sentences that may be spoken, the most needed first.
    never : str
        What is not to be said, and why.
    needed : int
        How many sentences are said at once, and stay even where room is short; the others wait
        until someone asks.
    is_spare : bool
        Whether it stands on the card only where there is room for all the others.
    """

    question: str
    say: tuple[str, ...]
    never: str
    needed: int = 1
    is_spare: bool = False

    @property
    def at_once(self) -> str:
        """What is said at once."""
        return " ".join(self.say[: self.needed])

    @property
    def if_asked(self) -> str:
        """What is said if someone asks on; may be empty."""
        return " ".join(self.say[self.needed :])

    def without_last(self) -> "Prompt":
        """Return the same with its last sentence left off."""
        return replace(self, say=self.say[:-1])


@dataclass(frozen=True, slots=True)
class PocketWords(PageWords):
    """The fixed words of a pocket card; each can be replaced."""

    say: str = SAY
    more: str = IF_ASKED
    never: str = DO_NOT_SAY


def card_title(outcome: Outcome, review: str) -> str:
    """Return the title of a card, which is about the first outcome of a plan.

    Parameters
    ----------
    outcome : Outcome
        The outcome.
    review : str
        Title of the review.
    """
    label = outcome.label
    return f"{review}: questions on {label[:1].lower()}{label[1:]}"


def left_off(sentences: int, questions: int) -> str:
    """Say how much a card has no room for; empty where all stands on it."""
    told = [counted(sentences, "sentence", "sentences")] if sentences else []
    told += [counted(questions, "question", "questions")] if questions else []
    if not told:
        return ""
    return f"Left off for want of room: {' and '.join(told)}; the same card as text has all."


def no_room(name: str, letters: int, source: Source) -> str:
    """Say that not one question fits a card, and which words to shorten."""
    return (
        "the pocket card has no room for a question, because title, marks and status line fill the "
        f"page. The longest words of them are '{name}' in {source}: {letters:,} letters. Shorten "
        "them there, and make the card again"
    )


NOT_HERE = Prompt(
    question="Equipment, drugs, cost?",
    say=("Beyond what is counted above, that is not in this review: say so.",),
    never="A make, a dose or a price from memory: nothing here stands behind it.",
)
