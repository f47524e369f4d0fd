"""The counts of a unit in one table."""

from evsyn.audit.reasons import Reason
from evsyn.audit.standing import Standing
from evsyn.audit.unit_audit import UnitAudit
from evsyn.audit.verdict import Limits
from evsyn.extraction.plan import Plan
from evsyn.pooling.review import group_label
from evsyn.reporting.plain_table import plain_table
from evsyn.terms import OVERALL
from evsyn.wording.audit import group_words
from evsyn.wording.audit_summary import verdict_of
from evsyn.wording.numbers import cell, count
from evsyn.wording.verdict import verdict_words

AUDIT_HEADINGS = ("Count of the unit", "Count", "% (exact 95%)", "Ordinary units", "Verdict")


def audit_table(found: UnitAudit, plan: Plan) -> str:
    """Return each count with its interval, the range of ordinary units, and the verdict.

    Parameters
    ----------
    found : UnitAudit
        What the audit found.
    plan : Plan
        The plan, for its words.
    """
    return plain_table(AUDIT_HEADINGS, audit_rows(found, plan), right=(1,))


def audit_rows(found: UnitAudit, plan: Plan) -> list[tuple[str, str, str, str, str]]:
    """Return the rows of that table; arguments as above."""
    rows = []
    for standing in found.standings:
        label = f"{plan.outcomes[standing.outcome].label}, {group_words(standing, plan)}"
        share, limits = standing.events / standing.total, standing.interval
        rows.append(
            (
                label,
                count(standing.events, standing.total),
                "" if limits is None else cell(share, limits.low, limits.high),
                _ordinary(_reach(standing, found), standing.total),
                verdict_words(verdict_of(standing, found.wholes), _reason(standing, found)),
            )
        )
    return rows


def _reach(standing: Standing, found: UnitAudit) -> Limits | None:
    """Return the range of a count; of a whole, the one by the unit's own case mix."""
    if standing.stratum != OVERALL:
        return None if standing.comparison is None else standing.comparison.limits
    whole = found.whole(standing.outcome)
    return None if whole is None or whole.found is None else whole.found.limits


def _reason(standing: Standing, found: UnitAudit) -> Reason | None:
    """Return why a count has no verdict; of a whole, why its own case mix gives none."""
    if standing.stratum != OVERALL or standing.reason is not Reason.CASE_MIX:
        return standing.reason
    whole = found.whole(standing.outcome)
    return None if whole is None or whole.found is None else whole.found.reason


def changes_table(found: UnitAudit, plan: Plan) -> str:
    """Return each level's count of the period before and of this one, with the verdict.

    Parameters
    ----------
    found : UnitAudit
        What the audit found, with an earlier period.
    plan : Plan
        The plan, for its words.
    """
    rows = []
    for change in found.changes:
        later, before = change.found.later, change.found.earlier
        if later is None:
            continue
        outcome = plan.outcomes[change.question.outcome].label
        label = f"{outcome}, {group_label(plan, change.question)}"
        now = later.count
        rows.append(
            (
                label,
                count(before.events, before.total),
                count(now.events, now.total),
                _ordinary(later.limits, now.total),
                verdict_words(later.verdict, later.reason),
            )
        )
    headings = ("Count of the unit", "Before", "Now", "If nothing changed", "Verdict")
    return plain_table(headings, rows, right=(1, 2))


def _ordinary(limits: Limits | None, total: int) -> str:
    if limits is None:
        return ""
    reach = f"{limits.low:,}" if limits.low == limits.high else f"{limits.low:,} to {limits.high:,}"
    return f"{reach} of {total:,}"
