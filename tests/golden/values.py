"""The values that are kept: rows, reading row, prediction and tests, by question."""

import json
import math
from pathlib import Path
from typing import Any

from evsyn.cells.levels import level_names
from evsyn.extraction.load import read_review
from evsyn.pooling.difference import stratum_difference
from evsyn.pooling.result import Pooled
from evsyn.pooling.review import answer_comparisons, answer_questions, questions

ROOT = Path(__file__).parent.parent.parent
REVIEWS = ("demo", "published", "published-trials")


def values_of(name: str) -> dict[str, Any]:
    """Return every pooled value of a review, by question."""
    review = read_review(ROOT / "studies" / name)
    answers = answer_questions(review, questions(review.plan))
    kept: dict[str, Any] = {}
    for question, pooled in answers.items():
        answer = pooled.answer
        kept[question.key] = {
            "k": answer.k,
            "events": sum(answer.events),
            "total": sum(answer.total),
            "show": str(answer.show),
            "reading_row": None if answer.reading is None else str(answer.reading.row),
            "left_out": len(pooled.table.left_out),
            "rows": {str(row): _kept(found) for row, found in answer.rows.items()},
        }
    for compared in answer_comparisons(review, review.plan.outcomes):
        kept[compared.table.key] = {
            "k": compared.k,
            "reading_row": None if compared.reading is None else str(compared.reading),
            "left_out": len(compared.table.left_out),
            "rows": {str(row): _kept(found) for row, found in compared.rows.items()},
        }
    for outcome in review.plan.outcomes:
        for stratum, declared in review.plan.strata.items():
            found = stratum_difference(answers, outcome, stratum, list(level_names(declared)))
            if found.test is not None:
                kept[f"{outcome}/{stratum} differ"] = [found.test.statistic, found.test.p]
    return kept


def _kept(found: Pooled) -> list[float | None]:
    values = (found.estimate, found.low, found.high, found.tau2)
    return [None if math.isnan(value) else value for value in values]


def path_of(name: str) -> Path:
    """Return the file in which a review's values are kept."""
    return Path(__file__).parent / f"{name}.json"


def write(name: str) -> None:
    """Keep the values of a review as they are now."""
    text = json.dumps(values_of(name), indent=1)
    path_of(name).write_text(f"{text}\n", encoding="utf-8")
