"""A calibration with where its layout was taken from, as text or fields."""

from dataclasses import dataclass
from typing import Any

from evsyn.calibration.of_review import ReviewLayout
from evsyn.calibration.result import Calibration, Line
from evsyn.extraction.review import Review
from evsyn.pooling.reading import NEXT_TO_NONE
from evsyn.pooling.review import group_label
from evsyn.reporting.calibrate_json import calibration_json
from evsyn.reporting.calibrate_text import calibration_text
from evsyn.wording.calibration import (
    LITTLE_SPREAD,
    OWN_TRUTH,
    TYPED,
    advice,
    held_sentence,
    taken_from_row,
)
from evsyn.wording.calibration_levels import left_out_sentence
from evsyn.wording.rows import ROW_IN_SENTENCE
from evsyn.wording.status import status_line


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a layout was taken from: lines above a calibration, and sentences below it.

    Parameters
    ----------
    head, notes : tuple of str
        Sentences.
    taken_from : str
        Where the truth was taken from.
    fields : dict
        The same for programs.
    """

    head: tuple[str, ...]
    taken_from: str
    notes: tuple[str, ...]
    fields: dict[str, Any]


def typed_origin() -> Origin:
    """Return the origin of a layout that was typed."""
    return Origin((), TYPED, (), {"review": None, "invented": False, "key": None})


def review_origin(review: Review, found: ReviewLayout, *, rate: bool, tau: bool) -> Origin:
    """Return the origin of a layout taken from a review.

    Parameters
    ----------
    review : Review
        The review.
    found : ReviewLayout
        The layout and the pool it is of.
    rate, tau : bool
        Whether each is that of the row to read, and not typed.
    """
    question, read = found.pooled.table.question, found.pooled.answer.reading
    label = review.plan.outcomes[question.outcome].label
    group = group_label(review.plan, question)
    row = "" if read is None else ROW_IN_SENTENCE[read.row]
    little = tau and found.layout.tau < NEXT_TO_NONE
    notes = (
        LITTLE_SPREAD if little else "",
        left_out_sentence(found.small_levels, len(found.shared)),
        OWN_TRUTH if rate or tau else "",
    )
    return Origin(
        head=(status_line(review), f"{label}, {group}." if group else f"{label}."),
        taken_from=taken_from_row(row, rate=rate, tau=tau),
        notes=tuple(filter(None, notes)),
        fields={
            "review": review.plan.review,
            "invented": review.invented,
            "status": status_line(review),
            "key": question.key,
        },
    )


def calibration_page_text(found: Calibration, origin: Origin) -> str:
    """Return a calibration as text."""
    return calibration_text(
        found, head=origin.head, taken_from=origin.taken_from, notes=origin.notes
    )


def calibration_page_json(found: Calibration, origin: Origin) -> str:
    """Return a calibration as fields, with its main sentences."""
    leads = ((Line.HEADLINE, "the headline"), (Line.READING, "the row to read"))
    sentences = [
        *(held_sentence(found.line(line), found.level, lead=lead) for line, lead in leads),
        advice(found),
    ]
    told = {"taken_from": origin.taken_from, "sentences": sentences, "notes": list(origin.notes)}
    return calibration_json(found, {**origin.fields, **told})
