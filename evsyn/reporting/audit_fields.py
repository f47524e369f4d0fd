"""Where a unit stands, as fields for programs."""

from typing import Any

from evsyn.audit.own_series import names_itself
from evsyn.audit.plain import plain
from evsyn.audit.unit_audit import UnitAudit, unit_audit
from evsyn.extraction.load import CheckedUnit
from evsyn.extraction.review import Review
from evsyn.extraction.unit import Unit
from evsyn.reporting.audit_outside import outside_fields
from evsyn.reporting.json_text import json_text
from evsyn.terms import Audience
from evsyn.wording.audience import INSIDE_MARK, release_sentences
from evsyn.wording.audit import closing_sentences, standing_sentences
from evsyn.wording.audit_summary import summary_sentences
from evsyn.wording.next_period import next_period_sentences
from evsyn.wording.own_series import alarm_sentences
from evsyn.wording.standardised import standardised_sentences
from evsyn.wording.status import status_line


def audit_json(
    review: Review,
    checked: CheckedUnit,
    audience: Audience,
    earlier: CheckedUnit | None = None,
) -> str:
    """Return the unit's standing as JSON; every exact count carries its sources.

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
    if audience is Audience.OUTSIDE and unit.full_release is None:
        return json_text(outside_fields(review, unit))
    found = unit_audit(review, unit, None if earlier is None else earlier.unit)
    fields: dict[str, Any] = {
        "for": str(audience),
        "mark": release_sentences(
            unit.full_release, None if earlier is None else earlier.unit.full_release
        ),
        "unit": unit.unit,
        "label": unit.label,
        "invented": unit.invented or review.invented,
        "status": status_line(review),
        "overlap_alarms": list(alarm_sentences(found.alarms, can_check=names_itself(unit))),
        "summary": list(summary_sentences(found.standings, plan, wholes=found.wholes)),
        "standings": [
            {**standing.to_dict(), "sentences": list(standing_sentences(standing, plan))}
            for standing in found.standings
        ],
        "wholes": [
            {**_plain(whole), "sentences": list(standardised_sentences(whole, plan))}
            for whole in found.wholes
        ],
        "changes": [
            {
                **_plain(change),
                "sentences": list(
                    next_period_sentences(change.found, plan, change.question.outcome)
                ),
            }
            for change in found.changes
        ],
        "closing": list(closing_sentences(found.looks)),
    }
    if audience is Audience.INSIDE:
        fields |= _inside(unit, found, checked)
        fields["mark"] = INSIDE_MARK
    return json_text(fields)


def _inside(unit: Unit, found: UnitAudit, checked: CheckedUnit) -> dict[str, Any]:
    """Return what never leaves the unit: dates, cases left out, the flow, remarks on the file."""
    cases = found.ascertainment
    return {
        "period": {"from": unit.period.from_, "to": unit.period.to},
        "frozen_on": unit.frozen_on,
        "cases": {
            "counted": cases.counted,
            "left_out": cases.left_out,
            "expected": cases.expected,
            "according_to": cases.according_to,
            "says_complete": cases.says_complete,
            "unaccounted": cases.unaccounted,
        },
        "flow": [list(stage) for stage in unit.flow.items()],
        "findings": [finding.to_dict() for finding in checked.findings],
    }


def _plain(record: object) -> dict[str, Any]:
    made = plain(record)
    return made if isinstance(made, dict) else {}
