"""The counts of a unit in one table."""

from evsyn.audit.standing import Standing
from evsyn.audit.unit_audit import UnitAudit
from evsyn.audit.verdict import Limits
from evsyn.extraction.plan import Plan
from evsyn.reporting.plain_table import plain_table
from evsyn.terms import OVERALL
from evsyn.wording.audit import group_words
from evsyn.wording.audit_summary import verdict_of
from evsyn.wording.numbers import cell, count
from evsyn.wording.verdict import VERDICT_WORDS

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
                VERDICT_WORDS[verdict_of(standing, found.wholes)],
            )
        )
    return rows


def _reach(standing: Standing, found: UnitAudit) -> Limits | None:
    """Return the range of a count; of a whole, the one by the unit's own case mix."""
    if standing.stratum != OVERALL:
        return None if standing.comparison is None else standing.comparison.limits
    whole = found.whole(standing.outcome)
    return None if whole is None or whole.found is None else whole.found.limits


def _ordinary(limits: Limits | None, total: int) -> str:
    if limits is None:
        return ""
    reach = f"{limits.low:,}" if limits.low == limits.high else f"{limits.low:,} to {limits.high:,}"
    return f"{reach} of {total:,}"
