"""How far each pool hangs on its counts, as text or as fields."""

import math
from collections.abc import Iterable, Sequence
from typing import Any

from evsyn.cells.cell import Question
from evsyn.extraction.review import Review
from evsyn.pooling.disputed import DisputedPool, Variant, disputed_pool
from evsyn.pooling.review import answer_questions, group_label, questions
from evsyn.reporting.json_text import json_text
from evsyn.reporting.plain_table import plain_table
from evsyn.reporting.pool_page import CAUTION
from evsyn.reporting.pool_text import paragraph
from evsyn.wording.disputed import (
    StudySaid,
    comes_in_lines,
    disputed_sentence,
    otherwise_lines,
    shift_points,
    studies_said,
)
from evsyn.wording.numbers import count, limits, percent
from evsyn.wording.pooled import pooled_sentence
from evsyn.wording.status import status_line

#: Changes shown in the table of the terminal; the fields for programs hold every step.
SHOWN = (-3, -1, 1, 3)
HEADINGS = ("Study", "3 fewer", "1 fewer", "1 more", "3 more", "Left out")
KEY = (
    "In each cell: the row to read in %, its shift in points, and its interval. A dash: no such "
    "count. Studies that shift it most stand first."
)


def disputed_text(review: Review, outcomes: Iterable[str], strata: Sequence[str]) -> str:
    """Return, for all studies and each level of some strata, what each count can change.

    Parameters
    ----------
    review : Review
        The review.
    outcomes : iterable of str
        Outcomes to show; taken one by one, so that a caller can show progress.
    strata : sequence of str
        Strata to show.
    """
    parts = [paragraph(status_line(review)), ""]
    for pool in _pools(review, outcomes, strata):
        parts += [_pool_text(review, pool), ""]
    return "\n".join([*parts, paragraph(CAUTION)])


def disputed_json(review: Review, outcomes: Iterable[str], strata: Sequence[str]) -> str:
    """Return the same as JSON, with every step of every count."""
    pools = [_pool_json(review, pool) for pool in _pools(review, outcomes, strata)]
    return json_text(
        {
            "review": review.plan.review,
            "title": review.plan.title,
            "invented": review.invented,
            "status": status_line(review),
            "level": review.plan.pooling.level,
            "disputed": pools,
        }
    )


def _pools(
    review: Review, outcomes: Iterable[str], strata: Sequence[str]
) -> Iterable[DisputedPool]:
    for outcome in outcomes:
        asked = questions(review.plan, [outcome], strata)
        for pooled in answer_questions(review, asked).values():
            yield disputed_pool(review, pooled)


def said_of(review: Review, pool: DisputedPool) -> tuple[StudySaid, ...]:
    """Return what each study's count can change, against the plan's target where there is one."""
    return studies_said(pool, target=target_of(review, pool))


def target_of(review: Review, pool: DisputedPool) -> float | None:
    """Return the plan's fixed target of the outcome, where it names one."""
    return target_of_question(review, pool.base.table.question)


def target_of_question(review: Review, question: Question) -> float | None:
    """Return the plan's fixed target of a question's outcome, where it names one."""
    target = review.plan.audit.targets.get(question.outcome)
    return None if target is None else target.rate


def _sentence(review: Review, pool: DisputedPool) -> str:
    question = pool.base.table.question
    words = review.plan.outcomes[question.outcome]
    return pooled_sentence(
        pool.base,
        event=words.event,
        group=group_label(review.plan, question),
        refused=words.do_not_pool or "",
    )


def _pool_text(review: Review, pool: DisputedPool) -> str:
    question, said = pool.base.table.question, said_of(review, pool)
    group = group_label(review.plan, question)
    label = review.plan.outcomes[question.outcome].label
    title = f"{label}, {group or 'all studies'}: if one count were disputed"
    weighed = disputed_sentence(said, target=target_of(review, pool))
    lines = [title, "-" * len(title), paragraph(_sentence(review, pool)), paragraph(weighed)]
    told = [*otherwise_lines(said), *comes_in_lines(said)]
    lines += [paragraph(f"- {line}") for line in told]
    if said:
        ordered = sorted(said, key=lambda one: -one.study.largest_shift)
        rows = [disputed_row(one) for one in ordered]
        lines += ["", plain_table(HEADINGS, rows), "", paragraph(KEY)]
    return "\n".join(lines)


def disputed_row(
    said: StudySaid, steps: Sequence[int] = SHOWN, decimals: int = 1
) -> tuple[str, ...]:
    """Return one study's cells: its count, then the row to read at each change and without it."""
    row = said.study.row
    by_change = {one.change: one for one in said.study.counts}
    moved = (_cell(by_change[by], decimals) if by in by_change else "-" for by in steps)
    name = f"{row.label}\n{count(row.events, row.total)}"
    return (name, *moved, _cell(said.study.without, decimals))


def _cell(variant: Variant, decimals: int) -> str:
    reading = variant.pooled.answer.reading
    if reading is None:
        return "no row"
    row = reading.pooled
    estimate = percent(row.estimate).removesuffix("%")
    return f"{estimate} {shift_points(variant.shift, decimals)}\n({limits(row.low, row.high)})"


def _pool_json(review: Review, pool: DisputedPool) -> dict[str, Any]:
    question, answer = pool.base.table.question, pool.base.answer
    return {
        "key": question.key,
        "outcome": question.outcome,
        "stratum": question.stratum,
        "level": question.level,
        "sentence": _sentence(review, pool),
        "k": answer.k,
        "target": target_of(review, pool),
        **_read(Variant(0, pool.base, 0.0)),
        "studies": [_study_json(one) for one in said_of(review, pool)],
    }


def _study_json(said: StudySaid) -> dict[str, Any]:
    study, row = said.study, said.study.row
    return {
        "study": row.study,
        "label": row.label,
        "events": row.events,
        "total": row.total,
        "sources": [source.to_dict() for source in row.sources],
        "fewest_events": said.fewest,
        "if_counted": [
            {"change": one.change, "events": row.events + (one.change or 0), **_read(one)}
            | {"shift": _exists(one.shift), "says_otherwise": list(words)}
            for one, words in zip(study.counts, said.counts, strict=True)
        ],
        "if_left_out": {
            **_read(study.without),
            "shift": _exists(study.without.shift),
            "says_otherwise": list(said.without),
            "comes_in": list(study.comes_in),
        },
    }


def _read(variant: Variant) -> dict[str, Any]:
    """Return the row to read of a pool, and its limits."""
    reading = variant.pooled.answer.reading
    row = None if reading is None else reading.pooled
    return {
        "reading_row": None if reading is None else str(reading.row),
        "estimate": None if row is None else _exists(row.estimate),
        "low": None if row is None else _exists(row.low),
        "high": None if row is None else _exists(row.high),
    }


def _exists(value: float) -> float | None:
    return value if math.isfinite(value) else None
