"""What the literature says of an outcome, on the pocket card."""

from collections.abc import Sequence

from evsyn.extraction.plan import Outcome
from evsyn.pooling.answer import PoolAnswer, Row, Show
from evsyn.wording.numbers import count, counted, percent, span
from evsyn.wording.pocket import Prompt
from evsyn.wording.pooled import (
    TOO_WIDE,
    UNCONSTRAINED,
    disagreement_sentence,
    too_wide_to_quote,
)
from evsyn.wording.rows import ROW_IN_SENTENCE, headline_gives

_NEVER_BARE = '"It is" any of these: each is a typical setting, and settings differ.'

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
    said = (
        f"{label}: {about(row.estimate)}. A typical setting sees {percent(row.estimate)} "
        f"({span(row.low, row.high)}), {seen}"
    )
    if too_wide_to_quote(answer):
        said = f"{label}: {seen}; the rate is {TOO_WIDE} ({span(row.low, row.high)})"
    if not answer.show.verdict:
        return f"{said}; how far settings differ is all but unknown."
    limits = span(row.prediction_low, row.prediction_high)
    said += f"; the {100 * row.level:g}% range for an ordinary new setting is {limits}"
    if row.prediction_high - row.prediction_low > UNCONSTRAINED:
        said += ", so wide that the studies do not constrain one"
    return f"{said}."


def behind_sentence(answer: PoolAnswer) -> str:
    """Say by which model a spoken answer was read, what papers print, and how sure the spread is.

    Parameters
    ----------
    answer : PoolAnswer
        The answer.

    Returns
    -------
    str
        Empty where nothing is pooled, or no row can be read.
    """
    if answer.reading is None or not answer.show.pooled:
        return ""
    said = f"Read from {ROW_IN_SENTENCE[answer.reading.row]}"
    headline = answer.rows.get(Row.HEADLINE)
    if headline is not None:
        rate = f"{percent(headline.estimate)} ({span(headline.low, headline.high)})"
        said += f"; {headline_gives(headline)} {rate}"
    second = answer.second_prediction
    if second is not None and answer.show.verdict:
        limits = span(second.low, second.high)
        said += f". Next to no spread was seen, but a range of {limits} cannot be excluded"
    if answer.show is Show.SOME:
        said += f". With {answer.k} studies the spread is a rough guess"
    return f"{said}."


def others_prompt(others: Sequence[tuple[str, PoolAnswer]]) -> Prompt:
    """Say the plan's other outcomes, a line each.

    Parameters
    ----------
    others : sequence of (str, PoolAnswer)
        Label and answer over all studies of each, in the plan's order; at least one.
    """
    lines = tuple(_in_a_line(*one) for one in others)
    return Prompt("And the other outcomes?", lines, _NEVER_BARE, is_spare=True)


def _in_a_line(label: str, answer: PoolAnswer) -> str:
    studies = counted(answer.k, "study", "studies")
    if answer.show is Show.NOTHING:
        return f"{label}: no study here reports it."
    if answer.show is Show.REFUSED:
        return f"{label}: counts of {studies}, not pooled."
    seen = f"{count(sum(answer.events), sum(answer.total))} in {studies}"
    if answer.reading is None or not answer.show.pooled:
        return f"{label}: {seen}, no pool."
    if too_wide_to_quote(answer):
        return f"{label}: {seen}, {TOO_WIDE}."
    row = answer.reading.pooled
    return f"{label}: {percent(row.estimate)} ({span(row.low, row.high)}), {seen}."


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
    more = (
        part for part in (behind_sentence(answer), wanted, disagreement_sentence(answer)) if part
    )
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
