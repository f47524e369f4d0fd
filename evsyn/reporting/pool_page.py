"""The whole output of pooling a review, as text or as JSON."""

from collections.abc import Iterable, Mapping, Sequence

from evsyn.cells.cell import Question
from evsyn.cells.levels import era_strata, level_names
from evsyn.extraction.review import Review
from evsyn.pooling.compared import ComparisonAnswer
from evsyn.pooling.difference import Difference, stratum_difference
from evsyn.pooling.review import (
    Answers,
    answer_comparisons,
    answer_questions,
    group_label,
    questions,
)
from evsyn.pooling.sensitivity import sensitivity, shifted_eras
from evsyn.reporting.comparison_text import comparison_json, comparison_text
from evsyn.reporting.gaps import look_up_list
from evsyn.reporting.json_text import json_text
from evsyn.reporting.plain_table import plain_table
from evsyn.reporting.pool_json import pool_json
from evsyn.reporting.pool_text import (
    GROUP_HEADINGS,
    detail_text,
    group_row,
    outcome_text,
    paragraph,
)
from evsyn.wording.difference import difference_sentence
from evsyn.wording.method import method_sentence
from evsyn.wording.status import status_line
from evsyn.wording.strata import untold_sentence

CAUTION = (
    "Published series often come from enthusiasts. They support a clinician's judgement and never "
    "replace local protocol, licensed judgement or governance."
)


def pool_page_json(review: Review, outcomes: Iterable[str], strata: Sequence[str]) -> str:
    """Return the answers as JSON; its fields are documented in the reference of output."""
    answers: Answers = {}
    tests: dict[tuple[str, str], Difference] = {}
    compared: list[ComparisonAnswer] = []
    for outcome in outcomes:
        found = answer_questions(review, questions(review.plan, [outcome], strata))
        answers |= found
        for stratum, difference in _differences(review, found, outcome, strata).items():
            tests[outcome, stratum] = difference
        compared += answer_comparisons(review, [outcome])
    groups = {question: group_label(review.plan, question) for question in answers}
    fields = pool_json(review, answers, groups, tests)
    fields["comparisons"] = [comparison_json(review, answer) for answer in compared]
    return json_text(fields)


def pool_page_text(
    review: Review,
    outcomes: Iterable[str],
    strata: Sequence[str],
    *,
    detail: bool,
    look_up: bool,
) -> str:
    """Return the answers as text.

    Parameters
    ----------
    review : Review
        The review.
    outcomes : iterable of str
        Outcomes to show; taken one by one, so that a caller can show progress.
    strata : sequence of str
        Strata to show.
    detail : bool
        Whether to show every study, source and smaller set.
    look_up : bool
        Whether to list what to look up in each paper.
    """
    parts = [paragraph(status_line(review)), ""]
    made = pooled = 0
    for outcome in outcomes:
        answers = answer_questions(review, questions(review.plan, [outcome], strata))
        tests = _differences(review, answers, outcome, strata)
        made += sum(difference.test is not None for difference in tests.values())
        parts += _outcome_parts(review, outcome, strata, answers, tests, detail=detail)
        pooled += any(item.answer.show.pooled for item in answers.values())
        if detail:
            overall = answers[Question(outcome)]
            parts += [detail_text(review, overall, sensitivity(review, overall)), ""]
        for answer in answer_comparisons(review, [outcome]):
            parts += [comparison_text(review, answer, detail=detail), ""]
        untold = any(untold_sentence(review, outcome, name, answers) for name in strata)
        if look_up or (detail and untold):
            parts += [_look_up_text(review, outcome, whole=look_up), ""]
    parts += [paragraph(method_sentence(review.plan, made))] if pooled else []
    parts.append(paragraph(CAUTION))
    return "\n".join(parts)


def _outcome_parts(
    review: Review,
    outcome: str,
    strata: Sequence[str],
    answers: Answers,
    tests: Mapping[str, Difference],
    *,
    detail: bool,
) -> list[str]:
    said = {
        stratum: difference_sentence(difference, _words(review, stratum))
        for stratum, difference in tests.items()
    }
    parts = [outcome_text(review, outcome, answers, strata, said, detail=detail), ""]
    for stratum in strata:
        shifted = _shifted_text(review, outcome, stratum)
        parts += [shifted, ""] if shifted else []
    return parts


def _words(review: Review, stratum: str) -> dict[str, str]:
    return level_names(review.plan.strata[stratum])


def _differences(
    review: Review, answers: Answers, outcome: str, strata: Sequence[str]
) -> dict[str, Difference]:
    return {
        stratum: stratum_difference(
            answers,
            outcome,
            stratum,
            list(_words(review, stratum)),
            level=review.plan.pooling.level,
        )
        for stratum in strata
    }


def _shifted_text(review: Review, outcome: str, stratum: str) -> str:
    """Repeat the answer by era with the cut moved; empty for other strata."""
    era = era_strata(review.plan).get(stratum)
    if era is None:
        return ""
    rows = [
        group_row(level_names(era, cut)[pooled.table.question.level], pooled)
        for cut, answered in shifted_eras(review, outcome, stratum).items()
        for pooled in answered
        if pooled.answer.k
    ]
    return plain_table((f"Cut moved {era.shift} years", *GROUP_HEADINGS), rows, right=(1, 2))


FIRST_TO_LOOK_UP = 5


def _look_up_text(review: Review, outcome: str, *, whole: bool) -> str:
    listed = look_up_list(review, outcome)
    shown = listed if whole else listed[:FIRST_TO_LOOK_UP]
    title = f"What to look up for {review.plan.outcomes[outcome].event}"
    lines = [title, "-" * len(title)]
    for item in shown:
        lines.append(paragraph(item.citation))
        lines += [paragraph(f"- {what}", "  ") for what in item.what]
    if len(shown) < len(listed):
        lines.append(f"... and {len(listed) - len(shown)} more papers: add --look-up.")
    return "\n".join(lines)
