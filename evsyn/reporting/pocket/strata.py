"""The levels of each stratum, with the eras that stand in for it."""

from collections.abc import Sequence

from evsyn.cells.levels import labelled_strata, level_names, with_stand_ins
from evsyn.extraction.review import Review
from evsyn.pooling.answer import PoolAnswer
from evsyn.reporting.report.content import OutcomeReport, StratumReport
from evsyn.terms import UNPLACED
from evsyn.wording.pocket import Prompt
from evsyn.wording.pocket_strata import levels_sentence, short_difference, strata_prompt
from evsyn.wording.strata import stand_in_sentence, stating_or_stand_in, untold_sentence


def strata_prompts(review: Review, item: OutcomeReport) -> tuple[Prompt, ...]:
    """Return one prompt a stratum of the plan; an era stands with the stratum it stands in for.

    Parameters
    ----------
    review : Review
        The review.
    item : OutcomeReport
        The outcome.
    """
    plan = review.plan
    eras = {name: with_stand_ins(plan, [name])[1:] for name in labelled_strata(plan)}
    standing_in = {era for names in eras.values() for era in names}
    return tuple(
        _prompt(review, item, found, [s for s in item.strata if s.name in eras.get(found.name, ())])
        for found in item.strata
        if found.name not in standing_in
    )


def _prompt(
    review: Review, item: OutcomeReport, found: StratumReport, eras: Sequence[StratumReport]
) -> Prompt:
    words = level_names(review.plan.strata[found.name])
    levels_told, told = levels_sentence(_named(found)), _told(review, item, found)
    by_era = [_era(review, era) for era in eras]
    more = [_gathered(found), stating_or_stand_in(review, found.name)]
    # Where the levels themselves cannot be compared, that comes first, and the era is all there is.
    if found.difference.test is None:
        needed, more = [told, *by_era], [levels_told, *more]
    else:
        needed, more = [levels_told, told], [*more[:1], *by_era, *more[1:]]
    levels = [text for level, text in words.items() if level != UNPLACED]
    return strata_prompt(found.label, levels, found.difference, needed, more)


def _named(found: StratumReport) -> dict[str, PoolAnswer]:
    """Return the answers at the named levels, by their words."""
    named = (item for item in found.answers if item.question.level != UNPLACED)
    return {f"{item.title[:1].lower()}{item.title[1:]}": item.pooled.answer for item in named}


def _gathered(found: StratumReport) -> str:
    """Give the rate of the studies whose level is mixed or not stated; empty without any."""
    held = {
        item.title: item.pooled.answer
        for item in found.answers
        if item.question.level == UNPLACED and item.pooled.answer.k
    }
    return levels_sentence(held) if held else ""


def _told(review: Review, item: OutcomeReport, found: StratumReport) -> str:
    """Say whether levels differ, or why that cannot be told."""
    answers = {answered.question: answered.pooled for answered in found.answers}
    untold = untold_sentence(review, item.name, found.name, answers)
    words = level_names(review.plan.strata[found.name])
    return untold or short_difference(found.difference, words)


def _era(review: Review, era: StratumReport) -> str:
    words = level_names(review.plan.strata[era.name])
    told = (
        stand_in_sentence(review, era.name),
        levels_sentence(_named(era)),
        short_difference(era.difference, words),
    )
    return " ".join(told)
