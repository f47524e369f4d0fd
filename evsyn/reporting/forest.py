"""From a review to its forest plot."""

from collections.abc import Mapping

from evsyn.audit.counts import tallies
from evsyn.cells.cell import Question
from evsyn.cells.levels import level_names
from evsyn.extraction.load import CheckedUnit
from evsyn.extraction.review import Review
from evsyn.figures.forest import ForestContent, UnitLine, forest_content, unit_line
from evsyn.pooling.review import Answers, answer_questions, group_label
from evsyn.pooling.tables import PooledTable
from evsyn.terms import UNPLACED
from evsyn.wording.method import SLIDE_CAPTION, figure_caption
from evsyn.wording.pooled import pooled_sentence, range_sentence
from evsyn.wording.status import status_line
from evsyn.wording.strata import stating_or_stand_in, untold_sentence


def forest_of(
    review: Review,
    outcome: str,
    stratum: str | None,
    checked: CheckedUnit | None = None,
    *,
    show_two: bool = False,
) -> ForestContent:
    """Return what the forest plot of one outcome says.

    Parameters
    ----------
    review : Review
        The review.
    outcome : str
        An outcome of the plan.
    stratum : str or None
        A stratum whose levels become bands; ``None`` gives one band of all studies.
    checked : CheckedUnit or None
        A unit whose own rows stand in the bands they answer.
    show_two : bool
        Whether bands of two studies show them added up.
    """
    plan = review.plan
    words = plan.outcomes[outcome]
    overall = Question(outcome)
    levels = [] if stratum is None else list(level_names(plan.strata[stratum]))
    asked = [Question(outcome, stratum, level) for level in levels if stratum] or [overall]
    if stratum is not None:
        asked.append(overall)
    own = () if checked is None else checked.unit.own_studies
    answers = answer_questions(review, asked, without=own)
    shown = [
        answers[question]
        for question in asked
        if question.level != UNPLACED or answers[question].answer.k
    ]
    return forest_content(
        shown,
        title=words.label,
        subtitle=_subtitle(review, outcome),
        titles={
            p.table.question.key: _capital(group_label(plan, p.table.question)) or "All studies"
            for p in shown
        },
        sentences={p.table.question.key: _sentence(review, p) for p in shown},
        short_sentences={p.table.question.key: range_sentence(p.answer) for p in shown},
        status_line=status_line(review),
        caption=" ".join([*_notes(review, outcome, stratum, answers), figure_caption(plan)]),
        short_caption=" ".join(_notes(review, outcome, stratum, answers)) or SLIDE_CAPTION,
        better=words.better,
        invented=review.invented or (checked is not None and checked.unit.invented),
        units=None if checked is None else _unit_lines(review, checked),
        without_rows=[overall.key] if stratum is not None else (),
        show_two=show_two,
        level=plan.pooling.level,
        study_interval=plan.pooling.study_interval,
    )


def _subtitle(review: Review, outcome: str) -> str:
    plan = review.plan
    words = plan.outcomes[outcome]
    over = plan.denominators[words.denominators[0]]
    window = f", {plan.windows[words.windows[0]].label}" if words.windows else ""
    return f"Target count: of {over}{window}"


def _sentence(review: Review, pooled: PooledTable) -> str:
    """Drop the subject, which the band's title already says."""
    words = review.plan.outcomes[pooled.table.question.outcome]
    said = pooled_sentence(pooled, event=words.event, group="", refused=words.do_not_pool or "")
    return _capital(said.partition(": ")[2])


def _notes(review: Review, outcome: str, stratum: str | None, answers: Answers) -> list[str]:
    if stratum is None:
        return []
    said = [
        stating_or_stand_in(review, stratum),
        untold_sentence(review, outcome, stratum, answers),
    ]
    return [text for text in said if text]


def _unit_lines(review: Review, checked: CheckedUnit) -> Mapping[str, UnitLine]:
    unit, choices = checked.unit, review.plan.pooling
    return {
        tally.question.key: unit_line(
            unit.label,
            tally.events,
            tally.total,
            tally.sources[0],
            level=choices.level,
            study_interval=choices.study_interval,
        )
        for tally in tallies(unit, review.plan)
    }


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
