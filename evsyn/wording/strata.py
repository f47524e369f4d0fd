"""Words about levels: how many studies state them, and whether they differ."""

from collections.abc import Mapping

from evsyn.cells.cell import Question
from evsyn.cells.levels import arm_level, labelled_strata, studies_stating
from evsyn.extraction.plan import EraStratum, LabelledStratum
from evsyn.extraction.review import Review
from evsyn.pooling.answer import Show
from evsyn.pooling.difference import LEAST_LEVELS
from evsyn.pooling.strata_test import LEAST_STUDIES
from evsyn.pooling.tables import PooledTable
from evsyn.wording.numbers import counted


def stating_sentence(review: Review, stratum: str) -> str:
    """Say how many studies state a level of the stratum, level by level.

    Parameters
    ----------
    review : Review
        The review.
    stratum : str
        A labelled stratum of the plan.
    """
    declared = labelled_strata(review.plan)[stratum]
    stating = studies_stating(review, stratum)
    by_level = {
        words: sum(any(arm_level(arm, stratum) == level for arm in s.arms) for s in stating)
        for level, words in declared.levels.items()
    }
    listed = ", ".join(f"{words} {number}" for words, number in by_level.items())
    return (
        f"{len(stating)} of {counted(len(review.studies), 'study', 'studies')} state "
        f"{declared.asks} ({listed})."
    )


def untold_sentence(
    review: Review, outcome: str, stratum: str, answers: Mapping[Question, PooledTable]
) -> str:
    """Say that a comparison of levels cannot be told, and why; empty where it can.

    A comparison needs at least two levels with three studies each.

    Parameters
    ----------
    review : Review
        The review.
    outcome, stratum : str
        An outcome, and a stratum of the plan; an era is always told.
    answers : mapping
        Pooled answers by question.
    """
    if stratum not in labelled_strata(review.plan):
        return ""
    declared = labelled_strata(review.plan)[stratum]
    held = {
        words: answers[Question(outcome, stratum, level)].answer
        for level, words in declared.levels.items()
    }
    refused = any(answer.show is Show.REFUSED for answer in held.values())
    if refused or sum(answer.k >= LEAST_STUDIES for answer in held.values()) >= LEAST_LEVELS:
        return ""
    listed = ", ".join(f"{words} {answer.k}" for words, answer in held.items())
    event = review.plan.outcomes[outcome].event
    return (
        f"{declared.label} cannot be compared from these papers for {event}: studies with a "
        f"count that can be used, {listed}; a comparison needs three at each of two levels."
    )


def stand_in_sentence(review: Review, era: str) -> str:
    """Say what an era stands in for, and what it does not show; empty where it stands alone."""
    declared = review.plan.strata[era]
    if not isinstance(declared, EraStratum) or declared.stands_in_for is None:
        return ""
    other = review.plan.strata[declared.stands_in_for]
    name = other.label.lower() if isinstance(other, LabelledStratum) else declared.stands_in_for
    return (
        f"{declared.label} (cut {declared.cut_year}) stands in for {name}: everything else that "
        "changed with the years moves with it."
    )


def stating_or_stand_in(review: Review, stratum: str) -> str:
    """Say how many studies state a labelled stratum, or what an era stands in for."""
    if stratum in labelled_strata(review.plan):
        return stating_sentence(review, stratum)
    return stand_in_sentence(review, stratum)
