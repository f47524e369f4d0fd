"""Each pooled answer before new papers and with them."""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass

from evsyn.cells.cell import Question
from evsyn.cells.levels import with_stand_ins
from evsyn.extraction.review import Review
from evsyn.extraction.rules.rule import count_source
from evsyn.extraction.study import Study
from evsyn.pooling.answer import PoolAnswer
from evsyn.pooling.review import Answers, answer_questions, group_label, questions
from evsyn.reporting.plain_table import plain_table
from evsyn.reporting.pool_text import paragraph
from evsyn.terms import Source
from evsyn.wording.added import (
    AFTER,
    BEFORE,
    HEADINGS,
    NOTHING_MOVES,
    below_moved,
    by_plan,
    enters_none,
    moved_heading,
    pool_cells,
    stay,
    why_none,
)
from evsyn.wording.status import status_line


@dataclass(frozen=True, slots=True)
class Moved:
    """The same questions answered without and with some studies.

    Parameters
    ----------
    studies : tuple of str
        The studies' names.
    before, after : dict
        Answers by question, for the outcomes it reports.
    """

    studies: tuple[str, ...]
    before: Answers
    after: Answers

    @property
    def changed(self) -> tuple[Question, ...]:
        """Questions whose evidence is another with the studies."""
        return tuple(
            question
            for question, pooled in self.after.items()
            if pooled.table.cells != self.before[question].table.cells
        )


def moved_by(before: Review, after: Review, studies: Collection[str]) -> Moved:
    """Answer every question on the outcomes of some studies, without them and with them.

    Parameters
    ----------
    before, after : Review
        The review as it was, and with the studies.
    studies : collection of str
        Names of the studies that are new or changed.
    """
    new = [one for one in after.studies if one.study in studies]
    reported = {outcome for one in new for arm in one.arms for outcome in arm.outcomes}
    outcomes = [outcome for outcome in after.plan.outcomes if outcome in reported]
    asked = questions(after.plan, outcomes, with_stand_ins(after.plan, tuple(after.plan.strata)))
    return Moved(
        tuple(one.study for one in new),
        answer_questions(before, asked),
        answer_questions(after, asked),
    )


def moved_text(after: Review, moved: Moved) -> str:
    """Return a table an outcome of what moved, two lines a pool.

    Parameters
    ----------
    after : Review
        The review with the studies.
    moved : Moved
        Its answers before and with them.
    """
    new = [one for one in after.studies if one.study in moved.studies]
    title = moved_heading([one.name for one in new])
    parts = [title, "-" * len(title), ""]
    pooled = [one for one in moved.changed if not after.plan.outcomes[one.outcome].do_not_pool]
    for outcome in dict.fromkeys(question.outcome for question in pooled):
        asked = [one for one in moved.after if one.outcome == outcome]
        changed = [one for one in moved.changed if one.outcome == outcome]
        rows: list[tuple[str, ...]] = []
        answers: list[PoolAnswer] = []
        for question in changed:
            group = group_label(after.plan, question) or "all studies"
            both = (moved.before[question].answer, moved.after[question].answer)
            answers += both
            rows.append((group, BEFORE, *pool_cells(both[0])))
            rows.append(("", AFTER, *pool_cells(both[1])))
        label = after.plan.outcomes[outcome].label
        parts += [plain_table((label, *HEADINGS[1:]), rows, right=(2,), whole=(3, 4, 5))]
        parts += [paragraph(one) for one in why_none(answers)]
        parts += [stay(len(asked) - len(changed), label), ""]
    outside = list(_outside(after, moved, new))
    if not pooled:
        parts += [NOTHING_MOVES, ""]
    parts += [*(paragraph(one) for one in outside), ""] if outside else []
    if pooled:
        parts += [paragraph(below_moved(after.plan.pooling.level, several=len(new) > 1)), ""]
    return "\n".join([*parts, paragraph(status_line(after))])


def _outside(after: Review, moved: Moved, new: Iterable[Study]) -> Iterator[str]:
    """Say of each count of the studies that enters no pool why it does not."""
    tables = [pooled.table for pooled in moved.after.values()]
    entered = {_place(source) for one in tables for cell in one.cells for source in cell.sources}
    reasons = {_place(item.source): item.reason for one in tables for item in one.left_out}
    several = len(moved.studies) > 1
    for study in new:
        for arm in study.arms:
            for outcome, count in arm.outcomes.items():
                place = _place(count_source(arm, outcome, count))
                words = after.plan.outcomes[outcome]
                if place in entered and not words.do_not_pool:
                    continue
                told = [study.name] * several + [arm.arm] * (len(study.arms) > 1)
                refused = by_plan(words.do_not_pool) if words.do_not_pool else ""
                reason = refused or reasons.get(place, "")
                yield enters_none(told, words.label, count.events, count.total, reason)


def _place(source: Source) -> tuple[str, str]:
    return source.file, source.key_path
