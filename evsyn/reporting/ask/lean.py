"""Whether one study carries a pool, as text or as fields."""

import math
from collections.abc import Sequence
from typing import Any

from evsyn.extraction.review import Review
from evsyn.pooling.lean import Leaning, WithoutStudy
from evsyn.reporting.ask.frame import framed_json, framed_text, named, titled
from evsyn.reporting.plain_table import plain_table
from evsyn.reporting.pool_disputed import target_of_question
from evsyn.reporting.pool_text import paragraph
from evsyn.wording.ask_lean import (
    HEADINGS,
    KEY,
    instead_sentence,
    lean_heading,
    lean_row,
    lean_sentence,
    whole_row,
)


def lean_text(review: Review, found: Sequence[Leaning]) -> str:
    """Return one table a pool, the study that shifts it most first."""
    parts = [_block(review, one) for one in found]
    return framed_text(review, [*parts, paragraph(KEY)], questions=_looked_at(found), tests=0)


def lean_json(review: Review, found: Sequence[Leaning]) -> str:
    """Return the same as JSON, every study in the order of the pool."""
    fields = {"pools": [_fields(one) for one in found]}
    return framed_json(review, fields, questions=_looked_at(found), tests=0)


def _block(review: Review, leaning: Leaning) -> str:
    question = leaning.base.table.question
    target = target_of_question(review, question)
    said = [paragraph(lean_sentence(leaning, target=target))]
    if leaning.studies:
        ordered = sorted(leaning.studies, key=_most_first)
        rows = [whole_row(leaning), *(lean_row(one) for one in ordered)]
        said += ["", plain_table(HEADINGS, rows, right=(2, 4, 5, 6), whole=(1, 3))]
    comes_in = [one for one in leaning.studies if one.comes_in]
    said += [paragraph(instead_sentence(one)) for one in comes_in]
    return titled(lean_heading(*named(review, question)), *said)


def _looked_at(found: Sequence[Leaning]) -> int:
    return sum(1 + len(one.studies) for one in found)


def _most_first(one: WithoutStudy) -> float:
    return math.inf if math.isnan(one.shift) else -abs(one.shift)


def _fields(leaning: Leaning) -> dict[str, Any]:
    return {
        "question": leaning.base.table.question.key,
        "studies": [_study(one) for one in leaning.studies],
    }


def _study(one: WithoutStudy) -> dict[str, Any]:
    reading = one.without.answer.reading
    row = None if reading is None else reading.pooled
    return {
        "study": one.row.study,
        "label": one.row.label,
        "events": one.row.events,
        "total": one.row.total,
        "weight": one.weight,
        "residual": one.residual,
        "tau2_without": one.tau2_without,
        "comes_in": list(one.comes_in),
        "without": None
        if row is None or reading is None
        else {
            "row": str(reading.row),
            "estimate": row.estimate,
            "low": row.low,
            "high": row.high,
            "shift": one.shift,
            "tau2": row.tau2,
        },
    }
