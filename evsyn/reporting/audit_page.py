"""Where a unit stands, as text and as JSON."""

from typing import Any

from evsyn.audit.ascertainment import period_years
from evsyn.audit.comparison import Comparison
from evsyn.audit.own_series import names_itself
from evsyn.audit.reasons import Reason
from evsyn.audit.standing import Standing
from evsyn.audit.unit_audit import unit_audit
from evsyn.extraction.load import CheckedUnit
from evsyn.extraction.plan import Plan
from evsyn.extraction.review import Review
from evsyn.extraction.unit import Unit
from evsyn.reporting.audit_outside import outside_fields, outside_text
from evsyn.reporting.findings import findings_text
from evsyn.reporting.json_text import json_text
from evsyn.reporting.plain_table import plain_table
from evsyn.reporting.pool_text import paragraph
from evsyn.terms import OVERALL, Audience
from evsyn.wording.audience import INSIDE_MARK, release_sentence
from evsyn.wording.audit import (
    ascertainment_sentence,
    closing_sentences,
    group_words,
    invented_sentence,
    standing_sentences,
)
from evsyn.wording.audit_summary import summary_sentences
from evsyn.wording.numbers import cell, count, counted
from evsyn.wording.outside import head_sentence
from evsyn.wording.own_series import alarm_sentences
from evsyn.wording.status import INVENTED, status_line
from evsyn.wording.unit_file import flow_sentences, period_sentence
from evsyn.wording.verdict import VERDICT_WORDS

#: The summary takes no more lines than this.
SUMMARY_LINES = 7


def audit_text(
    review: Review,
    checked: CheckedUnit,
    audience: Audience,
    earlier: CheckedUnit | None = None,
) -> str:
    """Return the unit's standing as text: ascertainment first, then each count.

    Parameters
    ----------
    review : Review
        The review.
    checked : CheckedUnit
        The unit's figures.
    audience : Audience
        Who will read it. Outside, only what may be told there is written.
    earlier : CheckedUnit, optional
        The unit's figures of an earlier period.
    """
    unit, plan = checked.unit, review.plan
    if audience is Audience.OUTSIDE and unit.release is None:
        return outside_text(review, unit)
    found = unit_audit(review, unit, None if earlier is None else earlier.unit)
    placed = found.standings
    parts = [
        *map(paragraph, _opening(review, unit, audience)),
        *map(paragraph, alarm_sentences(found.alarms, can_check=names_itself(unit))),
        "",
        paragraph(ascertainment_sentence(found.ascertainment, plan.population)),
    ]
    if audience is Audience.INSIDE:
        parts += map(paragraph, flow_sentences(unit, plan))
    parts += ["", _summary(placed, plan), "", _table(placed, plan)]
    for standing in placed:
        title = f"{plan.outcomes[standing.outcome].label}: {group_words(standing, plan)}"
        parts += ["", title, "-" * len(title)]
        parts += [paragraph(said) for said in standing_sentences(standing, plan)]
    parts += ["", *(paragraph(said) for said in closing_sentences(found.looks))]
    if checked.findings and audience is Audience.INSIDE:
        name = counted(len(checked.findings), "remark", "remarks")
        parts += [
            "",
            f"{name} on the unit's file",
            findings_text(unit.unit, 1, checked.findings, of_unit=True),
        ]
    return "\n".join(parts)


def _opening(review: Review, unit: Unit, audience: Audience) -> list[str]:
    """Say for whom it is, of which unit and period, and against what; no date goes outside."""
    mark = f"{INVENTED}: " if unit.invented or review.invented else ""
    if audience is Audience.INSIDE:
        head = [INSIDE_MARK, f"{mark}{period_sentence(unit)}"]
    else:
        head = [f"{mark}{head_sentence(unit, period_years(unit))}"]
        head += [] if unit.release is None else [release_sentence(unit.release)]
    against = f"Set against: {status_line(review)}"
    return [*head, against, *invented_sentence(unit.invented, review.invented)]


def audit_json(
    review: Review,
    checked: CheckedUnit,
    audience: Audience,
    earlier: CheckedUnit | None = None,
) -> str:
    """Return the unit's standing as JSON; inside, every count carries its sources.

    Parameters as in :func:`audit_text`.
    """
    if audience is Audience.OUTSIDE:
        return json_text(outside_fields(review, checked.unit))
    unit = checked.unit
    audited = unit_audit(review, unit, None if earlier is None else earlier.unit)
    placed, found = audited.standings, audited.ascertainment
    fields: dict[str, Any] = {
        "for": str(Audience.INSIDE),
        "mark": INSIDE_MARK,
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
        "overlap_alarms": list(alarm_sentences(audited.alarms, can_check=names_itself(unit))),
        "summary": list(summary_sentences(placed, review.plan)),
        "standings": [
            {**standing.to_dict(), "sentences": list(standing_sentences(standing, review.plan))}
            for standing in placed
        ],
        "closing": list(closing_sentences(audited.looks)),
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
