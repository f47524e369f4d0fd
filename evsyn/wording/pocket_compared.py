"""A comparison of treatments on the pocket card."""

from collections.abc import Sequence

from evsyn.pooling.compared import DIFFERENCE, ComparisonAnswer
from evsyn.wording.comparison import CONFOUNDED, contrast_of
from evsyn.wording.pocket import Prompt


def comparison_prompt(label: str, answer: ComparisonAnswer, said: Sequence[str]) -> Prompt:
    """Say what a comparison within studies holds.

    Parameters
    ----------
    label : str
        The comparison, as ``Stent against surgery``.
    answer : ComparisonAnswer
        The answer.
    said : sequence of str
        What may be said of it, the most needed first; empty sentences are passed over.
    """
    sentences = tuple(sentence for sentence in (*said, CONFOUNDED) if sentence)
    return Prompt(f"{label}?", sentences, _never(answer))


def _never(answer: ComparisonAnswer) -> str:
    if answer.reading is None:
        return '"One is better than the other": nothing is pooled here.'
    row = answer.rows[answer.reading]
    nothing = 0 if contrast_of(answer.reading, answer) == DIFFERENCE else 1
    if row.low < nothing < row.high:
        return '"There is no difference", or "one is better": the interval holds both and neither.'
    return '"It will be so here": whether these patients are like ours is ours to judge.'
