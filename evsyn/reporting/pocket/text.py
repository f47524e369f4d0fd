"""The pocket card as text, with nothing left off."""

from evsyn.figures.measure import one_line
from evsyn.reporting.pocket.card import pocket_card
from evsyn.reporting.pool_text import paragraph
from evsyn.reporting.report.content import ReportContent
from evsyn.wording.pocket import PocketWords, Prompt


def pocket_text(content: ReportContent) -> str:
    """Return the pocket card as text.

    Parameters
    ----------
    content : ReportContent
        The content of the report.
    """
    card = pocket_card(content)
    head = (card.banner, card.mark, card.title, card.subtitle)
    parts = [_folded(words) for words in head if words]
    for number, prompt in enumerate(card.prompts, start=1):
        parts += ["", *_prompt(number, prompt, card.words)]
    parts += ["", _folded(card.caution), _folded(card.status)]
    return "\n".join(parts)


def _prompt(number: int, prompt: Prompt, words: PocketWords) -> list[str]:
    told = (
        (words.say, prompt.at_once),
        (words.more, prompt.if_asked),
        (words.never, prompt.never),
    )
    answer = [_folded(f"{label}: {said}") for label, said in told if said]
    return [_folded(f"{number}. {prompt.question}"), *answer]


def _folded(words: str) -> str:
    return paragraph(one_line(words))
