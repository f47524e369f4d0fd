"""In which order outcomes and their strata are told."""

from evsyn.reporting.report.content import OutcomeReport, ReportContent, StratumReport
from evsyn.reporting.report.foremost import foremost_strata


def primary_first(content: ReportContent) -> list[OutcomeReport]:
    """Return the outcomes in the plan's order, the primary one before the others."""
    named = content.review.plan.audit.primary
    first = None if named is None else named.outcome
    return sorted(content.outcomes, key=lambda item: item.name != first)


def telling_first(content: ReportContent, item: OutcomeReport) -> list[StratumReport]:
    """Return every stratum of an outcome, first those whose levels can be compared."""
    first = foremost_strata(item, content.review.plan)
    return [*first, *(one for one in item.strata if one not in first)]
