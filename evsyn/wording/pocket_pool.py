"""What the literature says of an outcome, on the pocket card."""

from evsyn.extraction.plan import Outcome
from evsyn.pooling.answer import PoolAnswer, Show
from evsyn.wording.numbers import percent, span
from evsyn.wording.pocket import Prompt
from evsyn.wording.pooled import disagreement_sentence

_NEVER = {
    Show.NOTHING: '"It does not happen": nobody here reports it, which is not the same.',
    Show.ONE: '"The literature shows": this is one study.',
    Show.TWO: '"The pooled rate": two studies say nothing about how far settings differ.',
    Show.ALL_ZERO: '"It never happens": the rates just named remain possible.',
    Show.ALL_FULL: '"It always succeeds": the rates just named remain possible.',
    Show.REFUSED: "One percentage for all of them: the plan says why they are not pooled.",
}


def pool_prompt(
    outcome: Outcome, answer: PoolAnswer, sentence: str, wanted: str, treatment: str = ""
) -> Prompt:
    """Say what the studies hold of an outcome.

    Parameters
    ----------
    outcome : Outcome
        The outcome, for its words.
    answer : PoolAnswer
        The answer over all studies.
    sentence, wanted : str
        The answer in words, and what was wanted of the counts and found.
    treatment : str
        The treatment these patients had, where the plan lists several.
    """
    under = (f"All these patients had: {treatment}.",) if treatment else ()
    more = (part for part in (wanted, disagreement_sentence(answer)) if part)
    question = f"What does the literature say of {outcome.event}?"
    return Prompt(question, (sentence, *under, *more), _never(answer), 1 + len(under))


def _never(answer: PoolAnswer) -> str:
    if answer.show in _NEVER:
        return _NEVER[answer.show]
    if answer.reading is None:
        return "Any percentage: the models did not settle, and only the counts stand."
    row = answer.reading.pooled
    if not answer.show.verdict:
        return (
            f'"The rate is {percent(row.estimate)}": so few studies cannot tell how far settings '
            "differ."
        )
    limits = span(row.prediction_low, row.prediction_high)
    return (
        f'"The rate is {percent(row.estimate)}": that is the typical setting, and an ordinary new '
        f"one may see {limits}."
    )
