"""Where a unit stands, as text."""

from evsyn.audit.ascertainment import period_years
from evsyn.audit.by_role import by_role
from evsyn.audit.own_series import names_itself
from evsyn.audit.reasons import Reason
from evsyn.audit.standing import Standing
from evsyn.audit.unit_audit import UnitAudit, unit_audit
from evsyn.extraction.load import CheckedUnit
from evsyn.extraction.plan import Plan
from evsyn.extraction.review import Review
from evsyn.extraction.unit import Unit
from evsyn.pooling.review import group_label
from evsyn.reporting.audit_outside import outside_text
from evsyn.reporting.audit_table import audit_table, changes_table
from evsyn.reporting.findings import findings_text
from evsyn.reporting.pool_text import paragraph
from evsyn.terms import OVERALL, Audience
from evsyn.wording.audience import INSIDE_MARK, release_sentences
from evsyn.wording.audit import (
    ascertainment_sentence,
    closing_sentences,
    group_words,
    invented_sentence,
    standing_sentences,
)
from evsyn.wording.audit_summary import summary_sentences
from evsyn.wording.by_role import role_sentences
from evsyn.wording.checked import UNIT_READ
from evsyn.wording.next_period import (
    NOTHING_ALIKE,
    WHOLE_UNCHANGED,
    changes_sentence,
    next_period_sentences,
)
from evsyn.wording.numbers import counted
from evsyn.wording.outside import head_sentence
from evsyn.wording.own_series import alarm_sentences
from evsyn.wording.standardised import standardised_sentences
from evsyn.wording.status import INVENTED, status_line
from evsyn.wording.unit_file import flow_sentences, period_sentence

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
    if audience is Audience.OUTSIDE and unit.full_release is None:
        return outside_text(review, unit)
    found = unit_audit(review, unit, None if earlier is None else earlier.unit)
    placed = found.standings
    parts = [
        *map(paragraph, _opening(review, unit, audience, earlier)),
        *map(paragraph, alarm_sentences(found.alarms, can_check=names_itself(unit))),
        "",
        paragraph(ascertainment_sentence(found.ascertainment, plan.population)),
    ]
    if audience is Audience.INSIDE:
        parts += map(paragraph, flow_sentences(unit, plan))
    parts += ["", _summary(found, plan)]
    if earlier is not None:
        told = [change.found.later.verdict for change in found.changes if change.found.later]
        period = earlier.unit.period
        dates = (period.from_, period.to) if audience is Audience.INSIDE else ()
        parts.append(paragraph(changes_sentence(told, *dates)))
    parts += ["", audit_table(found, plan)]
    for standing in placed:
        title = f"{plan.outcomes[standing.outcome].label}: {group_words(standing, plan)}"
        parts += ["", title, "-" * len(title)]
        parts += [paragraph(said) for said in _sentences(standing, found, plan)]
    if earlier is not None:
        parts += _changes(found, earlier.unit, plan, audience)
    if audience is Audience.INSIDE and any(case.operator for case in checked.cases):
        parts += ["", *map(paragraph, _by_role(checked, plan))]
    parts += ["", *(paragraph(said) for said in closing_sentences(found.looks))]
    if checked.findings and audience is Audience.INSIDE:
        name = counted(len(checked.findings), "remark", "remarks")
        parts += [
            "",
            f"{name} on the unit's file",
            findings_text(unit.unit, None, checked.findings, read=UNIT_READ),
        ]
    return "\n".join(parts)


def _by_role(checked: CheckedUnit, plan: Plan) -> list[str]:
    """Say each outcome of a case log by the role of the operator, or why it is not said."""
    reported = {name for case in checked.cases for name in case.outcomes}
    told = [by_role(checked.cases, name, plan) for name in plan.outcomes if name in reported]
    return [sentence for item in told for sentence in role_sentences(item, plan)]


def _opening(
    review: Review, unit: Unit, audience: Audience, earlier: CheckedUnit | None
) -> list[str]:
    """Say for whom it is, of which unit and period, and against what; no date goes outside."""
    mark = f"{INVENTED}: " if unit.invented or review.invented else ""
    if audience is Audience.INSIDE:
        head = [INSIDE_MARK, f"{mark}{period_sentence(unit)}"]
    else:
        head = [f"{mark}{head_sentence(unit, period_years(unit))}"]
        head.append(
            release_sentences(
                unit.full_release, None if earlier is None else earlier.unit.full_release
            )
        )
    against = f"Set against: {status_line(review)}"
    return [*head, against, *invented_sentence(unit.invented, review.invented)]


def _sentences(standing: Standing, found: UnitAudit, plan: Plan) -> tuple[str, ...]:
    """Say where a count stands; of a whole, by the unit's own case mix as well."""
    said = standing_sentences(standing, plan)
    whole = found.whole(standing.outcome) if standing.stratum == OVERALL else None
    if whole is None or standing.reason in (Reason.NO_FOLLOW_UP, Reason.REFUSED):
        return said
    return (*said, *standardised_sentences(whole, plan))


def _summary(found: UnitAudit, plan: Plan) -> str:
    """Fold the summary, naming as many counts as its few lines hold."""
    for names in (None, 3, 2, 1):
        said = summary_sentences(found.standings, plan, names, found.wholes)
        folded = "\n".join(map(paragraph, said))
        if folded.count("\n") < SUMMARY_LINES:
            return folded
    return "\n".join(map(paragraph, summary_sentences(found.standings, plan, 0, found.wholes)))


def _changes(found: UnitAudit, earlier: Unit, plan: Plan, audience: Audience) -> list[str]:
    """Set each level's count against the period before; no date goes outside."""
    head = "Against the period before"
    if audience is Audience.INSIDE:
        head += f", {earlier.period.from_} to {earlier.period.to}"
    parts = ["", head, "=" * len(head)]
    if not found.changes:
        return [*parts, paragraph(NOTHING_ALIKE)]
    parts += [paragraph(WHOLE_UNCHANGED), "", changes_table(found, plan)]
    for change in found.changes:
        outcome = change.question.outcome
        title = f"{plan.outcomes[outcome].label}: {group_label(plan, change.question)}"
        parts += ["", title, "-" * len(title)]
        parts += map(paragraph, next_period_sentences(change.found, plan, outcome))
    return parts
