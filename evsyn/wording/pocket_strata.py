"""Levels of a stratum set side by side, on the pocket card."""

import math
from collections.abc import Mapping, Sequence

from evsyn.pooling.answer import PoolAnswer, Show
from evsyn.pooling.difference import Difference, NoTest
from evsyn.pooling.strata_test import StrataTest
from evsyn.wording.difference import contrast_words, is_at_odds
from evsyn.wording.numbers import count, counted, percent, probability, span
from evsyn.wording.pocket import Prompt
from evsyn.wording.pooled import TOO_WIDE, too_wide_to_quote

_CANNOT_TELL = '"One is better than the other": these papers cannot tell.'


def strata_question(label: str, levels: Sequence[str]) -> str:
    """Ask whether the levels of a stratum differ.

    Examples
    --------
    >>> strata_question("Intent", ["palliation", "bridge to surgery"])
    'Intent: palliation or bridge to surgery?'
    """
    *most, last = levels
    return f"{label}: {', '.join(most)}{' or ' if most else ''}{last}?"


def levels_sentence(answers: Mapping[str, PoolAnswer]) -> str:
    """Give the rate or the count at each level, by the words of the levels."""
    told = "; ".join(f"{words} {_level(answer)}" for words, answer in answers.items())
    return f"{told[:1].upper()}{told[1:]}."


def _level(answer: PoolAnswer) -> str:
    studies = counted(answer.k, "study", "studies")
    if answer.show is Show.NOTHING:
        return "in no study"
    if answer.show is Show.REFUSED:
        return f"in {studies}, not pooled"
    added = f"{count(sum(answer.events), sum(answer.total))} in {studies}"
    if answer.one_sided is not None:
        way = "up" if sum(answer.events) == 0 else "down"
        return f"{added}, rates {way} to {percent(answer.one_sided)} possible"
    if answer.reading is None:
        return f"{added}, no pool"
    row = answer.reading.pooled
    if too_wide_to_quote(answer):
        return f"{added}, {TOO_WIDE}"
    return f"{percent(row.estimate)} ({span(row.low, row.high)}), {added}"


def short_difference(difference: Difference, levels: Mapping[str, str]) -> str:
    """Say in short whether levels differ; empty without a test, of which others say why.

    Parameters
    ----------
    difference : Difference
        The test.
    levels : mapping
        Words of each level.
    """
    test = difference.test
    if test is None:
        return f"No test of difference: {difference.reason}."
    said = difference_verdict(test)
    if len(test.differences) == 1 and not math.isnan(test.differences[0].estimate):
        said += f"; odds compared, {contrast_words(test.differences[0], levels)}"
    if difference.q_between is not None:
        said += f"; papers would print P {probability(difference.q_between.p)}"
    few = " Exploratory, from few studies." if test.exploratory else ""
    return f"{said}.{few}"


def difference_verdict(test: StrataTest) -> str:
    """Say what a test of difference shows, in few words and with its P."""
    p = probability(test.p)
    if is_at_odds(test):
        return f"Limits and P ({p}) part at the edge: lean on neither"
    if test.p < 1 - test.level:
        return f"They differ by more than chance allows (P {p})"
    return f"Not shown to differ (P {p})"


def strata_prompt(
    label: str,
    levels: Sequence[str],
    tested: Difference,
    needed: Sequence[str],
    more: Sequence[str],
) -> Prompt:
    """Say what stands at each level of a stratum, and whether levels differ.

    Parameters
    ----------
    label : str
        The stratum.
    levels : sequence of str
        Words of its levels.
    tested : Difference
        Its test of difference.
    needed, more : sequence of str
        What must be said, and what may be where there is room.
    """
    said = tuple(sentence for sentence in (*needed, *more) if sentence)
    kept = sum(bool(sentence) for sentence in needed)
    return Prompt(strata_question(label, levels), said, _never(label, tested), kept)


def _never(label: str, tested: Difference) -> str:
    if tested.reason is NoTest.BY_PLAN:
        return '"One is better than the other": the plan does not set these shares side by side.'
    if tested.test is None:
        return _CANNOT_TELL
    if tested.test.p < 1 - tested.test.level:
        return (
            f'"It comes from {label[:1].lower()}{label[1:]}": levels are compared between studies, '
            "and era, centre and case mix move with them."
        )
    return '"There is no difference": none was shown, which is not the same.'
