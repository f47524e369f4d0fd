"""What stands round every answer: the status line, what was asked, and the caution."""

from collections.abc import Iterable, Mapping
from typing import Any

from evsyn.cells.cell import Question
from evsyn.extraction.review import Review
from evsyn.pooling.review import group_label
from evsyn.reporting.json_text import json_text
from evsyn.reporting.pool_page import CAUTION
from evsyn.reporting.pool_text import paragraph
from evsyn.wording.asked import asked_sentence
from evsyn.wording.status import status_line


def framed_text(review: Review, parts: Iterable[str], *, questions: int, tests: int) -> str:
    """Return an answer with the status line above, and below what was asked and the caution.

    Parameters
    ----------
    review : Review
        The review.
    parts : iterable of str
        What is said, block by block.
    questions, tests : int
        Pools looked at, and tests made.
    """
    blocks = [paragraph(status_line(review)), *parts]
    blocks += [paragraph(asked_sentence(questions, tests)), paragraph(CAUTION)]
    return "\n\n".join(blocks)


def framed_json(review: Review, fields: Mapping[str, Any], *, questions: int, tests: int) -> str:
    """Return the same as fields for programs."""
    return json_text(
        {
            "review": review.plan.review,
            "title": review.plan.title,
            "invented": review.invented,
            "status": status_line(review),
            "level": review.plan.pooling.level,
            "asked": {"pools": questions, "tests": tests},
            **fields,
        }
    )


def titled(title: str, *parts: str) -> str:
    """Return a block under an underlined title."""
    return "\n".join([title, "-" * len(title), *parts])


def named(review: Review, question: Question) -> tuple[str, str]:
    """Return a question's outcome and its group in words."""
    label = review.plan.outcomes[question.outcome].label
    return label, group_label(review.plan, question) or "all studies"
