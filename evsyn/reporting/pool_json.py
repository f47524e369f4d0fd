"""Pooled answers as fields for programs; every count carries its sources."""

import math
from collections.abc import Mapping
from dataclasses import asdict
from typing import Any

from evsyn.cells.cell import Cell, LeftOut, Question
from evsyn.extraction.review import Review
from evsyn.pooling.answer import PoolAnswer, Show
from evsyn.pooling.difference import Difference
from evsyn.pooling.strata_test import StrataTest
from evsyn.pooling.tables import PooledTable
from evsyn.terms import Interval
from evsyn.wording.pooled import disagreement_sentence, pooled_sentence
from evsyn.wording.status import status_line


def pool_json(
    review: Review,
    answers: Mapping[Question, PooledTable],
    groups: Mapping[Question, str],
    differences: Mapping[tuple[str, str], Difference],
) -> dict[str, Any]:
    """Return the answers of a review as fields.

    Parameters
    ----------
    review : Review
        The review.
    answers : mapping
        Pooled answers by question.
    groups : mapping
        Each question's level in the plan's words.
    differences : mapping
        Tests of difference by outcome and stratum.
    """
    return {
        "review": review.plan.review,
        "title": review.plan.title,
        "invented": review.invented,
        "status": status_line(review),
        "level": review.plan.pooling.level,
        "answers": [
            answer_json(review, pooled, groups[question]) for question, pooled in answers.items()
        ],
        "differences": [
            {"outcome": outcome, "stratum": stratum, **_difference(difference)}
            for (outcome, stratum), difference in differences.items()
        ],
    }


def answer_json(review: Review, pooled: PooledTable, group: str) -> dict[str, Any]:
    """Return one pooled answer as fields."""
    question, answer = pooled.table.question, pooled.answer
    words = review.plan.outcomes[question.outcome]
    return {
        "key": question.key,
        "outcome": question.outcome,
        "stratum": question.stratum,
        "level": question.level,
        "better": str(words.better),
        "show": str(answer.show),
        "sentence": pooled_sentence(
            pooled, event=words.event, group=group, refused=words.do_not_pool or ""
        ),
        "k": answer.k,
        "events": None if answer.show is Show.REFUSED else sum(answer.events),
        "total": None if answer.show is Show.REFUSED else sum(answer.total),
        "crude": _interval(answer.crude),
        "one_sided_95": answer.one_sided,
        **_reading(answer),
        "disagreement": disagreement_sentence(answer) or None,
        "rows": {str(name): row.to_dict() for name, row in answer.rows.items()},
        "studies": [_cell(cell) for cell in pooled.table.cells],
        "left_out": [_left_out(item) for item in pooled.table.left_out],
    }


def _reading(answer: PoolAnswer) -> dict[str, Any]:
    reading = answer.reading
    return {
        "reading_row": None if reading is None else str(reading.row),
        "reading_reason": [] if reading is None else list(reading.reasons),
        "mean_over_settings": None if reading is None else reading.mean,
        "second_prediction": _interval(answer.second_prediction),
    }


def _interval(interval: Interval | None) -> dict[str, float | str] | None:
    return None if interval is None else interval.to_dict()


def _cell(cell: Cell) -> dict[str, Any]:
    return {
        "study": cell.study,
        "label": cell.label,
        "year": cell.year,
        "events": cell.events,
        "total": cell.total,
        "basis": cell.basis,
        "window": cell.window,
        "marks": sorted(str(mark) for mark in cell.marks),
        "sources": [source.to_dict() for source in cell.sources],
    }


def _left_out(item: LeftOut) -> dict[str, Any]:
    return {
        "study": item.study,
        "label": item.label,
        "events": item.events,
        "total": item.total,
        "reason": item.reason,
        "source": item.source.to_dict(),
    }


def _difference(difference: Difference) -> dict[str, Any]:
    test, between = difference.test, difference.q_between
    return {
        "reason": None if difference.reason is None else str(difference.reason),
        "studies_in_two_levels": list(difference.shared),
        "test": None if test is None else _test(test),
        "q_between": None if between is None else asdict(between),
    }


def _test(test: StrataTest) -> dict[str, Any]:
    return {
        "method": test.method,
        "levels": list(test.levels),
        "k_by_level": list(test.k_by_level),
        "levels_not_tested": list(test.left_out),
        "tau2": test.tau2,
        "f": test.statistic,
        "df1": test.df1,
        "df2": test.df2,
        "p": test.p,
        "exploratory": test.exploratory,
        "log_odds_differences": [
            {name: _exists(value) for name, value in asdict(one).items()}
            for one in test.differences
        ],
    }


def _exists(value: float | str) -> float | str | None:
    return None if isinstance(value, float) and not math.isfinite(value) else value
