"""Pooled answers before and after a change, marked so that none is taken for the review's own."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from evsyn.cells.cell import Cell, Question
from evsyn.extraction.review import Review
from evsyn.pooling.review import Answers, answer_cell_tables, answer_questions, group_label
from evsyn.pooling.tables import PooledTable
from evsyn.pooling.what_if import (
    NOT_OF_THE_PAPER,
    CountChange,
    changed_tables,
    pooled_row,
    tables_without,
    what_if_source,
)
from evsyn.reporting.json_text import json_text
from evsyn.reporting.plain_table import plain_table
from evsyn.reporting.pool_json import answer_json
from evsyn.reporting.pool_page import CAUTION
from evsyn.reporting.pool_text import paragraph, short_source
from evsyn.wording.numbers import count
from evsyn.wording.pooled import pooled_sentence
from evsyn.wording.status import status_line
from evsyn.wording.what_if import (
    AFTER,
    BEFORE,
    COMPARISONS_LEFT,
    MARK,
    UNCHANGED,
    before_and_after,
    comes_in_sentence,
    what_if_line,
)


@dataclass(frozen=True, slots=True)
class WhatIf:
    """What is changed: counts, and studies left out.

    Parameters
    ----------
    changes : tuple of CountChange
        One a study and outcome.
    without : tuple of str
        Names of studies to leave out.
    """

    changes: tuple[CountChange, ...] = ()
    without: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class BeforeAfter:
    """The same questions answered as the review stands, and after a change.

    Parameters
    ----------
    before, after : dict
        Answers by question.
    rows : tuple of Cell
        The row each count takes the place of, in the order of the changes.
    """

    before: Answers
    after: Answers
    rows: tuple[Cell, ...]


def before_after(review: Review, asked: Sequence[Question], what_if: WhatIf) -> BeforeAfter:
    """Answer questions before and after a change.

    Raises
    ------
    ValueError
        If a changed count is not of one pooled count, after the studies are left out.
    """
    before = answer_questions(review, asked)
    tables = tables_without(review, [one.table for one in before.values()], what_if.without)
    rows = tuple(row for one in what_if.changes if (row := pooled_row(tables, one)) is not None)
    after = answer_cell_tables(review, changed_tables(tables, what_if.changes))
    return BeforeAfter(before, after, rows)


def what_if_text(review: Review, found: BeforeAfter, what_if: WhatIf) -> str:
    """Return both answers to every question side by side, the mark first."""
    parts = [paragraph(_status(review, what_if)), ""]
    for change, row in zip(what_if.changes, found.rows, strict=True):
        now, was = count(change.events, change.total), count(row.events, row.total)
        places = ", ".join(short_source(source) for source in row.sources)
        parts.append(
            paragraph(f"{row.label}: {now} ({NOT_OF_THE_PAPER}) in place of {was} ({places}).")
        )
    parts += [""] if what_if.changes else []
    for question, before in found.before.items():
        after = found.after[question]
        parts += [_pair_text(review, before, after), ""]
    parts += [paragraph(COMPARISONS_LEFT), ""] if review.plan.comparisons else []
    return "\n".join([*parts, paragraph(CAUTION)])


def _pair_text(review: Review, before: PooledTable, after: PooledTable) -> str:
    question = before.table.question
    words = review.plan.outcomes[question.outcome]
    group = group_label(review.plan, question)
    title = f"{MARK}: {words.label}, {group or 'all studies'}"
    parts = [title, "-" * len(title)]
    if before.table.cells == after.table.cells:
        return "\n".join([*parts, UNCHANGED])
    for heading, pooled in ((BEFORE, before), (AFTER, after)):
        said = pooled_sentence(
            pooled, event=words.event, group=group, refused=words.do_not_pool or ""
        )
        parts.append(paragraph(f"{heading}. {said}"))
    here = {row.study for row in before.table.cells}
    new = [row.label for row in after.table.cells if row.study not in here]
    parts += [paragraph(comes_in_sentence(new))] if new else []
    lines, changed = before_and_after(before.answer), before_and_after(after.answer)
    rows = [(name, lines.get(name, ""), changed.get(name, "")) for name in lines | changed]
    rows = [row for row in rows if row[1] or row[2]]
    return "\n".join([*parts, "", plain_table(("", BEFORE, AFTER), rows)])


def what_if_json(review: Review, found: BeforeAfter, what_if: WhatIf) -> str:
    """Return the same as JSON; there is no field ``answers``, so none can be taken for it."""
    return json_text(
        {
            "review": review.plan.review,
            "title": review.plan.title,
            "invented": review.invented,
            "status": _status(review, what_if),
            "level": review.plan.pooling.level,
            "what_if": {
                "changes": [
                    _change(change, row)
                    for change, row in zip(what_if.changes, found.rows, strict=True)
                ],
                "without": list(what_if.without),
            },
            "before": _answers(review, found.before),
            "after": _answers(review, found.after),
        }
    )


def _status(review: Review, what_if: WhatIf) -> str:
    labels = {study.study: study.name for study in review.studies}
    told = [
        (labels[change.study], review.plan.outcomes[change.outcome].event, change)
        for change in what_if.changes
    ]
    left = [labels[name] for name in what_if.without]
    return f"{what_if_line(told, left)} {status_line(review)}"


def _change(change: CountChange, row: Cell) -> dict[str, Any]:
    return {
        "study": change.study,
        "label": row.label,
        "outcome": change.outcome,
        "events": change.events,
        "total": change.total,
        "source": what_if_source(change.study, change.outcome).to_dict(),
        "in_place_of": {
            "events": row.events,
            "total": row.total,
            "sources": [source.to_dict() for source in row.sources],
        },
    }


def _answers(review: Review, answers: Answers) -> list[dict[str, Any]]:
    return [
        answer_json(review, pooled, group_label(review.plan, question))
        for question, pooled in answers.items()
    ]
