"""What the literature says of an outcome, on the pocket card."""

from evsyn.extraction.plan import Outcome
from evsyn.pooling.answer import PoolAnswer, Show
from evsyn.wording.numbers import count, percent, span
from evsyn.wording.pocket import Prompt
from evsyn.wording.pooled import (
    TOO_WIDE,
    UNCONSTRAINED,
    disagreement_sentence,
    too_wide_to_quote,
)

_NEVER = {
    Show.NOTHING: '"It does not happen": nobody here reports it, which is not the same.',
    Show.ONE: '"The literature shows": this is one study.',
    Show.TWO: '"The pooled rate": two studies say nothing about how far settings differ.',
    Show.ALL_ZERO: '"It never happens": the rates just named remain possible.',
    Show.ALL_FULL: '"It always succeeds": the rates just named remain possible.',
    Show.REFUSED: "One percentage for all of them: the plan says why they are not pooled.",
}


def spoken_sentence(label: str, answer: PoolAnswer) -> str:
    """Say a pooled answer as it is spoken, without the name of a method.

    Parameters
    ----------
    label : str
        The outcome or level, as ``Perforation``.
    answer : PoolAnswer
        The answer.

    Returns
    -------
    str
        Empty where nothing is pooled, or no row can be read: the full sentence is short there.
    """
    if answer.reading is None or not answer.show.pooled:
        return ""
    row = answer.reading.pooled
    seen = f"{count(sum(answer.events), sum(answer.total))} in {answer.k} studies"
    if too_wide_to_quote(answer):
        return f"{label}: {seen}; the rate is {TOO_WIDE} ({span(row.low, row.high)})."
    said = (
        f"{label}: {about(row.estimate)}. A typical setting sees {percent(row.estimate)} "
        f"({span(row.low, row.high)}), {seen}"
    )
    if not answer.show.verdict:
        return f"{said}; how far settings differ is all but unknown."
    limits = span(row.prediction_low, row.prediction_high)
    if row.prediction_high - row.prediction_low > UNCONSTRAINED:
        return f"{said}; the studies do not constrain a new setting ({limits})."
    return f"{said}; ordinary new settings may see {limits}."


def about(proportion: float) -> str:
    """Say a proportion as a whole number of 100, as it is spoken.

    Examples
    --------
    >>> about(0.0412), about(0.004), about(0.996)
    ('about 4 in 100', 'fewer than 1 in 100', 'more than 99 in 100')
    """
    if proportion < 0.01:
        return "fewer than 1 in 100"
    if proportion > 0.99:
        return "more than 99 in 100"
    return f"about {100 * proportion:.0f} in 100"


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
    spoken = spoken_sentence(outcome.label, answer)
    at_once = (spoken or sentence, *under)
    full = sentence if spoken else ""
    more = (part for part in (full, wanted, disagreement_sentence(answer)) if part)
    question = f"What does the literature say of {outcome.event}?"
    return Prompt(question, (*at_once, *more), never_sentence(answer), len(at_once))


def never_sentence(answer: PoolAnswer) -> str:
    """Say what is not to be said of a pool, and why."""
    if answer.show in _NEVER:
        return _NEVER[answer.show]
    if answer.reading is None:
        return "Any percentage: the models did not settle, and only the counts stand."
    row = answer.reading.pooled
    if too_wide_to_quote(answer):
        return f"Any percentage: its interval, {span(row.low, row.high)}, is {TOO_WIDE}."
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
