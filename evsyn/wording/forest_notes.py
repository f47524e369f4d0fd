"""The sentences over and under a forest plot."""

from collections.abc import Iterable

from evsyn.audit.reasons import Reason
from evsyn.cells.levels import labelled_strata, studies_stating
from evsyn.extraction.plan import Plan
from evsyn.extraction.review import Review
from evsyn.pooling.answer import PoolAnswer, Show
from evsyn.pooling.difference import Difference
from evsyn.wording.method import figure_caption
from evsyn.wording.numbers import counted, probability
from evsyn.wording.pooled import range_sentence
from evsyn.wording.strata import stand_in_sentence, stating_sentence

UNIT_ROW = (
    "The unit's row is the share it saw, with the interval of its own count; a shaded range is of "
    "true rates, and shares seen in few cases scatter more widely than those."
)
UNIT_ROW_SHORT = "Unit rows: share seen, own interval; shaded ranges: true rates, which vary less."

_NOT_DRAWN = {
    Reason.CASE_MIX: "its case mix may differ from the studies'",
    Reason.BASIS: "its denominator is not theirs",
    Reason.NO_FOLLOW_UP: "how long its cases were followed is not known",
    Reason.REFUSED: "the plan does not pool this outcome",
    Reason.TOO_MANY_CASES: "it has more cases than the comparison is made for",
}
OTHERWISE_COUNTED = "counted on another denominator or window than the row drawn"
THE_WHOLE = "the unit as a whole"


def bands_sentence(review: Review, stratum: str) -> str:
    """Say how many studies state a labelled stratum, or what an era stands in for."""
    if stratum not in labelled_strata(review.plan):
        return stand_in_sentence(review, stratum)
    said = stating_sentence(review, stratum).removesuffix(".")
    return f"{said}; a band holds those of them that also count the outcome."


def short_bands_sentence(review: Review, stratum: str) -> str:
    """Say the same on a slide."""
    if stratum not in labelled_strata(review.plan):
        return stand_in_sentence(review, stratum)
    asks = labelled_strata(review.plan)[stratum].asks
    stating, k = len(studies_stating(review, stratum)), len(review.studies)
    return f"{stating} of {k} studies state {asks}; bands: those with a count."


def short_difference(difference: Difference) -> str:
    """Say on a slide whether levels differ, and how far that can be trusted."""
    test = difference.test
    if test is None:
        return f"No test of difference: {difference.reason}."
    said = f"Difference: P {probability(test.p)}"
    if test.exploratory:
        said += ", exploratory"
    said += "; compared between studies"
    if difference.shared:
        where = "both" if len(test.differences) == 1 else "more than one level"
        said += f"; {counted(len(difference.shared), 'study', 'studies')} in {where}"
    return f"{said}."


def short_sentence(answer: PoolAnswer) -> str:
    """Say on a slide what a band's marks do not; empty where the full sentence is needed."""
    if answer.show is Show.FEW and answer.reading is not None:
        return f"Only {answer.k} studies: no range for a new setting."
    return range_sentence(answer)


def not_drawn_sentence(left_out: Iterable[tuple[str, Reason | None]]) -> str:
    """Say which of the unit's counts are not drawn, and why; empty where all are.

    Parameters
    ----------
    left_out : iterable of tuple
        What was counted, in words, and the audit's reason; ``None`` where another count of the
        same cases is drawn.
    """
    by_reason: dict[str, list[str]] = {}
    for name, reason in left_out:
        why = OTHERWISE_COUNTED if reason is None else _NOT_DRAWN[reason]
        by_reason.setdefault(why, []).append(name)
    parts = [f"{', '.join(names)} ({why})" for why, names in by_reason.items()]
    return f"Not drawn: {'; '.join(parts)}." if parts else ""


def rows_caption(plan: Plan, answers: Iterable[PoolAnswer]) -> str:
    """Say how rows and summaries were made, as far as they are drawn."""
    said = figure_caption(plan)
    drawn = list(answers)
    if not any(answer.show.pooled for answer in drawn):
        return said.partition(" Headline:")[0]
    if not any(answer.show.verdict for answer in drawn):
        return f"{said.partition('; the range for')[0]}."
    return said
