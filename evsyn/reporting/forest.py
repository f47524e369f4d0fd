"""From a review to its forest plot."""

from dataclasses import dataclass

from evsyn.audit.reasons import Reason
from evsyn.audit.standing import Standing, standings
from evsyn.cells.cell import Question
from evsyn.cells.levels import labelled_strata, level_names
from evsyn.extraction.load import CheckedUnit
from evsyn.extraction.review import Review
from evsyn.figures.forest import (
    ForestContent,
    Invented,
    PoolToDraw,
    UnitLine,
    forest_content,
    unit_line,
)
from evsyn.pooling.difference import stratum_difference
from evsyn.pooling.review import Answers, answer_questions, group_label
from evsyn.pooling.tables import PooledTable
from evsyn.terms import OVERALL, UNPLACED, Audience
from evsyn.wording.audience import INSIDE_MARK, INSIDE_SHORT, NOT_RELEASED, release_sentence
from evsyn.wording.difference import difference_sentence
from evsyn.wording.forest_notes import (
    THE_WHOLE,
    UNIT_ROW,
    UNIT_ROW_SHORT,
    bands_sentence,
    not_drawn_sentence,
    rows_caption,
    short_bands_sentence,
    short_difference,
    short_sentence,
)
from evsyn.wording.method import SLIDE_CAPTION
from evsyn.wording.own_series import without_own
from evsyn.wording.pooled import pooled_sentence
from evsyn.wording.status import status_line
from evsyn.wording.strata import untold_sentence
from evsyn.wording.wanted import wanted_and_found


def forest_of(
    review: Review,
    outcome: str,
    stratum: str | None,
    checked: CheckedUnit | None = None,
    *,
    audience: Audience | None = None,
    show_two: bool = False,
    known: Answers | None = None,
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
        A unit whose own rows stand in the bands they may be set against: never its whole.
    audience : Audience, optional
        Who will see the unit's rows; needed where there are any.
    show_two : bool
        Whether bands of two studies show them added up.
    known : mapping of Question to PooledTable, optional
        All answers of the review, where it is pooled already and no unit's rows are drawn.

    Raises
    ------
    ValueError
        If the unit's rows are drawn for nobody, or for outside without a release.
    """
    plan = review.plan
    words = plan.outcomes[outcome]
    overall = Question(outcome)
    levels = [] if stratum is None else list(level_names(plan.strata[stratum]))
    asked = [Question(outcome, stratum, level) for level in levels if stratum] or [overall]
    if stratum is not None:
        asked.append(overall)
    if known is None or checked is not None:
        own = () if checked is None else checked.unit.own_studies
        known = answer_questions(review, asked, without=own)
    answers = {question: known[question] for question in asked}
    shown = [
        answers[question]
        for question in asked
        if question.level != UNPLACED or answers[question].answer.k
    ]
    unit = _Unit({}, "") if checked is None else _unit(review, checked, answers)
    full, short = _notes(review, outcome, stratum, answers, unit)
    mark = short_mark = ""
    if checked is not None and unit.lines:
        mark = _for_whom(checked, audience)
        short_mark = INSIDE_SHORT if audience is Audience.INSIDE else mark
    full.append(rows_caption(plan, [pooled.answer for pooled in shown]))
    if not short and any(pooled.answer.show.pooled for pooled in shown):
        short.append(SLIDE_CAPTION)
    return forest_content(
        [_drawn(review, pooled, unit, alone=stratum is None) for pooled in shown],
        title=words.label,
        subtitle=_subtitle(review, answers[overall], checked),
        status_line=status_line(review),
        caption=" ".join(full),
        short_caption=" ".join(short),
        better=words.better,
        invented=_invented(review, checked, unit),
        mark=mark,
        short_mark=short_mark,
        show_two=show_two,
        level=plan.pooling.level,
        study_interval=plan.pooling.study_interval,
    )


def _subtitle(review: Review, pooled: PooledTable, checked: CheckedUnit | None) -> str:
    """Say what was wanted and found, and which series of the unit's own are not drawn."""
    table = pooled.table
    own = () if checked is None else checked.unit.own_studies
    left_out = dict.fromkeys(row.study for row in table.left_out if row.study in own)
    found = wanted_and_found(review.plan, table.question.outcome, table.cells)
    return " ".join(text for text in (found, without_own(tuple(left_out))) if text)


def _drawn(review: Review, pooled: PooledTable, unit: "_Unit", *, alone: bool) -> PoolToDraw:
    """Put a pool and its words together; the whole beside its levels is drawn without rows."""
    question = pooled.table.question
    return PoolToDraw(
        pooled,
        title=_capital(group_label(review.plan, question)) or "All studies",
        sentence=_sentence(review, pooled),
        short_sentence=short_sentence(pooled.answer),
        unit=unit.lines.get(question.key),
        has_rows=alone or question != Question(question.outcome),
    )


def _for_whom(checked: CheckedUnit, audience: Audience | None) -> str:
    """Say who may see the unit's rows; outside, exact counts need a person's release."""
    if audience is Audience.INSIDE:
        return INSIDE_MARK
    if audience is None:
        raise ValueError("say for whom the unit's rows are drawn")
    if checked.unit.full_release is None:
        raise ValueError(NOT_RELEASED)
    return release_sentence(checked.unit.full_release)


@dataclass(frozen=True, slots=True)
class _Unit:
    """The unit's rows by the key of their question, and what is not drawn, in words."""

    lines: dict[str, UnitLine]
    not_drawn: str


def _unit(review: Review, checked: CheckedUnit, answers: Answers) -> _Unit:
    """Draw what the audit compares or shows beside a pool, and name what it may not set there."""
    plan, choices = review.plan, review.plan.pooling
    lines: dict[str, UnitLine] = {}
    left_out: list[tuple[str, Reason | None]] = []
    for standing in standings(checked.unit, answers, plan):
        question = standing.question
        if question not in answers:
            continue
        refused = _refused(standing)
        if refused is not None or question.key in lines:
            left_out.append((group_label(plan, question) or THE_WHOLE, refused))
            continue
        lines[question.key] = unit_line(
            checked.unit.label,
            standing.events,
            standing.total,
            standing.sources[0],
            level=choices.level,
            study_interval=choices.study_interval,
        )
    return _Unit(lines, not_drawn_sentence(left_out))


def _refused(standing: Standing) -> Reason | None:
    """Return why a count may not stand in a band; one beside few studies may."""
    if standing.reason in (Reason.REFUSED, Reason.BASIS, Reason.NO_FOLLOW_UP):
        return standing.reason
    return Reason.CASE_MIX if standing.stratum == OVERALL else None


def _invented(review: Review, checked: CheckedUnit | None, unit: _Unit) -> Invented:
    if checked is None or not unit.lines:
        return Invented.ALL if review.invented else Invented.NOTHING
    if review.invented:
        return Invented.ALL if checked.unit.invented else Invented.STUDIES
    return Invented.UNIT if checked.unit.invented else Invented.NOTHING


def _sentence(review: Review, pooled: PooledTable) -> str:
    """Drop the subject, which the band's title already says."""
    words = review.plan.outcomes[pooled.table.question.outcome]
    said = pooled_sentence(pooled, event=words.event, group="", refused=words.do_not_pool or "")
    return _capital(said.partition(": ")[2])


def _notes(
    review: Review, outcome: str, stratum: str | None, answers: Answers, unit: _Unit
) -> tuple[list[str], list[str]]:
    """Return the remarks under the figure, and the same for a slide."""
    full, short = [], []
    if stratum is not None:
        full.append(bands_sentence(review, stratum))
        short.append(short_bands_sentence(review, stratum))
        told, briefly = _difference(review, outcome, stratum, answers)
        full.append(told)
        short.append(briefly)
    if unit.lines:
        full.append(UNIT_ROW)
        short.append(UNIT_ROW_SHORT)
    full.append(unit.not_drawn)
    short.append(unit.not_drawn)
    return [text for text in full if text], [text for text in short if text]


def _difference(review: Review, outcome: str, stratum: str, answers: Answers) -> tuple[str, str]:
    """Say whether the levels differ, or why that cannot be told."""
    plan = review.plan
    if stratum in labelled_strata(plan):
        untold = untold_sentence(review, outcome, stratum, answers)
        if untold:
            return untold, untold
    levels = level_names(plan.strata[stratum])
    found = stratum_difference(answers, outcome, stratum, list(levels), level=plan.pooling.level)
    return difference_sentence(found, levels), short_difference(found)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
