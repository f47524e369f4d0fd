"""A comparison of two treatments as text and as fields."""

from typing import Any

from evsyn.cells.cell import Mark
from evsyn.extraction.review import Review
from evsyn.pooling.compared import ComparisonAnswer
from evsyn.reporting.plain_table import plain_table
from evsyn.reporting.pool_text import left_out_table, paragraph, short_source
from evsyn.wording.comparison import (
    CONFOUNDED,
    CONTRASTS,
    absolute_sentence,
    choice_sentence,
    compared_row_name,
    comparison_sentence,
    contrast_of,
    value,
)
from evsyn.wording.numbers import count
from evsyn.wording.rows import mark_key, mark_letters


def comparison_text(review: Review, answer: ComparisonAnswer, *, detail: bool) -> str:
    """Return one comparison: its sentence, its rows, and its studies.

    Parameters
    ----------
    review : Review
        The review.
    answer : ComparisonAnswer
        The answer.
    detail : bool
        Whether to list what was left out.
    """
    words = review.plan.outcomes[answer.table.outcome]
    declared = review.plan.comparisons[answer.table.comparison]
    title = f"{words.label}: {declared.label}"
    parts = [title, "-" * len(title), paragraph(_sentence(review, answer))]
    if answer.choice is not None:
        why = choice_sentence(answer)
        parts += [paragraph(why)] if why else []
        parts += ["", _rows_table(answer)] if answer.rows else []
        treatments = review.plan.treatments
        first, second = treatments[declared.first], treatments[declared.second]
        said = [absolute_sentence(effect, first=first, second=second) for effect in answer.absolute]
        parts += ["", *(paragraph(text) for text in said)] if said else []
    if answer.k:
        parts += ["", _studies_table(review, answer)]
        marks = frozenset[Mark]().union(*(cell.marks for cell in answer.table.cells))
        parts += [paragraph(f"Marks: {mark_key(marks)}.")] if marks else []
        parts.append(paragraph(CONFOUNDED))
    if detail and answer.table.left_out:
        parts += ["", left_out_table(answer.table.left_out)]
    return "\n".join(parts)


def comparison_json(review: Review, answer: ComparisonAnswer) -> dict[str, Any]:
    """Return one comparison as fields; every count carries its sources."""
    return {
        "key": answer.table.key,
        "outcome": answer.table.outcome,
        "comparison": answer.table.comparison,
        "contrast": answer.contrast,
        "sentence": _sentence(review, answer),
        "k": answer.k,
        "rows": {
            str(name): {**row.to_dict(), "contrast": contrast_of(name, answer)}
            for name, row in answer.rows.items()
        },
        "reading_row": None if answer.reading is None else str(answer.reading),
        "reading_reason": []
        if answer.choice is None
        else [str(reason) for reason in answer.choice.reasons],
        "studies": [
            {
                "study": cell.study,
                "label": cell.label,
                "events_1": cell.first.events,
                "total_1": cell.first.total,
                "events_2": cell.second.events,
                "total_2": cell.second.total,
                "marks": sorted(str(mark) for mark in cell.marks),
                "sources": [source.to_dict() for source in cell.sources],
            }
            for cell in answer.table.cells
        ],
        "left_out": [
            {
                "study": item.study,
                "events": item.events,
                "total": item.total,
                "reason": item.reason,
                "source": item.source.to_dict(),
            }
            for item in answer.table.left_out
        ],
    }


def _sentence(review: Review, answer: ComparisonAnswer) -> str:
    words = review.plan.outcomes[answer.table.outcome]
    return comparison_sentence(
        answer,
        event=words.event,
        label=review.plan.comparisons[answer.table.comparison].label,
        refused=words.do_not_pool or "",
    )


def _rows_table(answer: ComparisonAnswer) -> str:
    rows = []
    for name, row in answer.rows.items():
        contrast = contrast_of(name, answer)
        mark = "read this" if name is answer.reading else ""
        rows.append((compared_row_name(name, row), CONTRASTS[contrast], value(row, contrast), mark))
    return plain_table(("Method", "Contrast", "Value (95% interval)", ""), rows)


def _studies_table(review: Review, answer: ComparisonAnswer) -> str:
    declared = review.plan.comparisons[answer.table.comparison]
    rows = [
        (
            cell.label,
            count(cell.first.events, cell.first.total),
            count(cell.second.events, cell.second.total),
            value(effect, answer.contrast),
            mark_letters(cell.marks),
            short_source(cell.sources[0]),
        )
        for cell, effect in zip(answer.table.cells, answer.effects, strict=True)
    ]
    headings = (
        "Study",
        review.plan.treatments[declared.first],
        review.plan.treatments[declared.second],
        CONTRASTS[answer.contrast],
        "Marks",
        "File:line",
    )
    return plain_table(headings, rows, right=(1, 2), whole=(1, 2, 3, 5))
