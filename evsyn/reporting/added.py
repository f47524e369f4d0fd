"""Each pooled answer before a new paper and with it."""

from dataclasses import dataclass

from evsyn.cells.cell import Question
from evsyn.cells.levels import with_stand_ins
from evsyn.extraction.review import Review
from evsyn.pooling.review import Answers, answer_questions, group_label, questions
from evsyn.reporting.plain_table import plain_table
from evsyn.reporting.pool_text import paragraph
from evsyn.wording.added import (
    AFTER,
    BEFORE,
    BELOW,
    ENTERS_NOTHING,
    HEADINGS,
    moved_heading,
    pool_cells,
    stay,
)
from evsyn.wording.status import status_line


@dataclass(frozen=True, slots=True)
class Moved:
    """The same questions answered without and with a study.

    Parameters
    ----------
    study : str
        The study's name.
    before, after : dict
        Answers by question, for the outcomes it reports.
    """

    study: str
    before: Answers
    after: Answers

    @property
    def changed(self) -> tuple[Question, ...]:
        """Questions whose evidence is another with the study."""
        return tuple(
            question
            for question, pooled in self.after.items()
            if pooled.table.cells != self.before[question].table.cells
        )


def moved_by(before: Review, after: Review, study: str) -> Moved:
    """Answer every question on the outcomes of a study, without it and with it.

    Parameters
    ----------
    before, after : Review
        The review as it was, and with the study.
    study : str
        Name of the study.
    """
    (new,) = (one for one in after.studies if one.study == study)
    reported = {outcome for arm in new.arms for outcome in arm.outcomes}
    outcomes = [outcome for outcome in after.plan.outcomes if outcome in reported]
    asked = questions(after.plan, outcomes, with_stand_ins(after.plan, tuple(after.plan.strata)))
    return Moved(study, answer_questions(before, asked), answer_questions(after, asked))


def moved_text(after: Review, moved: Moved) -> str:
    """Return a table an outcome of what moved, two lines a pool.

    Parameters
    ----------
    after : Review
        The review with the study.
    moved : Moved
        Its answers before and with the study.
    """
    label = next(one.name for one in after.studies if one.study == moved.study)
    title = moved_heading(label)
    parts = [title, "-" * len(title), ""]
    outcomes = dict.fromkeys(question.outcome for question in moved.changed)
    if not outcomes:
        parts += [paragraph(ENTERS_NOTHING.format(label=label)), ""]
    for outcome in outcomes:
        asked = [one for one in moved.after if one.outcome == outcome]
        changed = [one for one in moved.changed if one.outcome == outcome]
        rows: list[tuple[str, ...]] = []
        for question in changed:
            group = group_label(after.plan, question) or "all studies"
            rows.append((group, BEFORE, *pool_cells(moved.before[question].answer)))
            rows.append(("", AFTER, *pool_cells(moved.after[question].answer)))
        headings = (after.plan.outcomes[outcome].label, *HEADINGS[1:])
        parts += [plain_table(headings, rows, right=(2,), whole=(3, 4, 5))]
        parts += [stay(len(asked) - len(changed)), ""]
    below = BELOW.format(level=after.plan.pooling.level)
    return "\n".join([*parts, paragraph(below), "", paragraph(status_line(after))])
