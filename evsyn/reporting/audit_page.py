"""Where a unit stands, as text and as JSON."""

from typing import Any

from evsyn.audit.ascertainment import ascertainment
from evsyn.audit.comparison import Comparison
from evsyn.audit.looks import looks
from evsyn.audit.reasons import Reason
from evsyn.audit.standing import Standing, standings
from evsyn.cells.cell import Question
from evsyn.extraction.load import CheckedUnit
from evsyn.extraction.plan import LabelledStratum, Plan
from evsyn.extraction.review import Review
from evsyn.pooling.review import answer_questions, questions
from evsyn.reporting.findings import findings_text
from evsyn.reporting.json_text import json_text
from evsyn.reporting.plain_table import plain_table
from evsyn.reporting.pool_text import paragraph
from evsyn.terms import OVERALL
from evsyn.wording.audit import (
    ascertainment_sentence,
    closing_sentences,
    group_words,
    invented_sentence,
    standing_sentences,
)
from evsyn.wording.audit_summary import summary_sentences
from evsyn.wording.numbers import cell, count, counted
from evsyn.wording.status import INVENTED, status_line
from evsyn.wording.verdict import VERDICT_WORDS

#: The summary takes no more lines than this.
SUMMARY_LINES = 5


def unit_standings(review: Review, checked: CheckedUnit) -> tuple[Standing, ...]:
    """Pool what the unit reports, its own series left out, and place each of its counts.

    Parameters
    ----------
    review : Review
        The review to set it against.
    checked : CheckedUnit
        The unit's figures.
    """
    unit, plan = checked.unit, review.plan
    reported = {name for group in unit.groups for name in group.outcomes}
    outcomes = [name for name in plan.outcomes if name in reported]
    strata = [name for name, s in plan.strata.items() if isinstance(s, LabelledStratum)]
    asked: list[Question] = list(questions(plan, outcomes, strata))
    pooled = answer_questions(review, asked, without=unit.own_studies)
    return standings(unit, pooled, plan)


def audit_text(review: Review, checked: CheckedUnit) -> str:
    """Return the unit's standing as text: ascertainment first, then each count."""
    unit, plan = checked.unit, review.plan
    placed = unit_standings(review, checked)
    mark = f"{INVENTED}: " if unit.invented or review.invented else ""
    period = f"{unit.period.from_} to {unit.period.to}"
    head = f"{mark}{unit.label}, {period}, frozen {unit.frozen_on}; followed: {unit.follow_up}."
    parts = [
        paragraph(head),
        paragraph(f"Set against: {status_line(review)}"),
        *map(paragraph, invented_sentence(unit.invented, review.invented)),
        "",
        paragraph(ascertainment_sentence(ascertainment(unit), plan.population)),
    ]
    parts += [paragraph(f"Left out: {item.count}, {item.why}.") for item in unit.left_out]
    if unit.flow:
        stages = ", ".join(f"{stage} {number}" for stage, number in unit.flow.items())
        parts.append(paragraph(f"Flow of cases: {stages}."))
    parts += ["", _summary(placed, plan), "", _table(placed, plan)]
    for standing in placed:
        title = f"{plan.outcomes[standing.outcome].label}: {group_words(standing, plan)}"
        parts += ["", title, "-" * len(title)]
        parts += [paragraph(said) for said in standing_sentences(standing, plan)]
    parts += ["", *(paragraph(said) for said in closing_sentences(looks(placed)))]
    if checked.findings:
        name = counted(len(checked.findings), "remark", "remarks")
        parts += [
            "",
            f"{name} on the unit's file",
            findings_text(unit.unit, 1, checked.findings, of_unit=True),
        ]
    return "\n".join(parts)


def audit_json(review: Review, checked: CheckedUnit) -> str:
    """Return the unit's standing as JSON; every count carries its sources."""
    unit = checked.unit
    placed = unit_standings(review, checked)
    found = ascertainment(unit)
    fields: dict[str, Any] = {
        "unit": unit.unit,
        "label": unit.label,
        "invented": unit.invented or review.invented,
        "period": {"from": unit.period.from_, "to": unit.period.to},
        "frozen_on": unit.frozen_on,
        "status": status_line(review),
        "cases": {
            "counted": found.counted,
            "left_out": found.left_out,
            "expected": found.expected,
            "according_to": found.according_to,
            "says_complete": found.says_complete,
            "unaccounted": found.unaccounted,
        },
        "summary": list(summary_sentences(placed, review.plan)),
        "standings": [
            {**standing.to_dict(), "sentences": list(standing_sentences(standing, review.plan))}
            for standing in placed
        ],
        "closing": list(closing_sentences(looks(placed))),
        "findings": [finding.to_dict() for finding in checked.findings],
    }
    return json_text(fields)


def _summary(placed: tuple[Standing, ...], plan: Plan) -> str:
    """Fold the summary, naming as many counts as its few lines hold."""
    for names in (None, 3, 2, 1):
        said = summary_sentences(placed, plan, names)
        folded = "\n".join(paragraph(sentence) for sentence in said)
        if folded.count("\n") < SUMMARY_LINES:
            return folded
    return "\n".join(paragraph(sentence) for sentence in summary_sentences(placed, plan, 0))


def _table(placed: tuple[Standing, ...], plan: Plan) -> str:
    compared = {s.outcome for s in placed if s.stratum != OVERALL and s.comparison is not None}
    rows = []
    for standing in placed:
        label = f"{plan.outcomes[standing.outcome].label}, {group_words(standing, plan)}"
        share, limits = standing.events / standing.total, standing.interval
        rows.append(
            (
                label,
                count(standing.events, standing.total),
                "" if limits is None else cell(share, limits.low, limits.high),
                _ordinary(standing.comparison, standing.total),
                _verdict(standing, compared),
            )
        )
    headings = ("Count of the unit", "Count", "% (exact 95%)", "Ordinary units", "Verdict")
    return plain_table(headings, rows, right=(1,))


def _ordinary(comparison: Comparison | None, total: int) -> str:
    if comparison is None:
        return ""
    limits = comparison.limits
    reach = f"{limits.low:,}" if limits.low == limits.high else f"{limits.low:,} to {limits.high:,}"
    return f"{reach} of {total:,}"


def _verdict(standing: Standing, compared: set[str]) -> str:
    """Write the verdict; of a whole whose levels are compared, that these are to be read."""
    if standing.reason is Reason.CASE_MIX and standing.outcome in compared:
        return "see the levels"
    return VERDICT_WORDS[standing.verdict]
