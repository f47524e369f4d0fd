"""What the figures of a unit's own counts say, as far as those who see them may know."""

from collections.abc import Sequence

from evsyn.figures.funnel import FunnelContent
from evsyn.figures.strip import StripContent
from evsyn.reporting.audit_figures import strip_of
from evsyn.reporting.report.content import ReportContent, UnitReport
from evsyn.reporting.target_funnel import target_funnel_of
from evsyn.reporting.told_outside import marks_for, tell_for
from evsyn.terms import Audience


def reported(unit: UnitReport, outcomes: Sequence[str]) -> list[str]:
    """Return those of some outcomes that the unit reports."""
    groups = unit.checked.unit.groups
    return [name for name in outcomes if any(name in group.outcomes for group in groups)]


def unit_strips(
    content: ReportContent, unit: UnitReport, outcome: str, stratum: str | None = None
) -> StripContent | None:
    """Return the count strips of an outcome, or of one stratum of it.

    ``None`` where the unit has no such count, or none that may be shown.
    """
    if not unit.is_full:
        return None
    mark, short_mark = marks_for(unit.checked, unit.audience)
    try:
        return strip_of(
            content.review,
            unit.checked,
            outcome,
            stratum=stratum,
            tell=tell_for(unit.checked, unit.audience),
            mark=mark,
            short_mark=short_mark,
            is_dated=unit.audience is Audience.INSIDE,
        )
    except ValueError:
        return None


def outside_funnel(content: ReportContent, unit: UnitReport, outcome: str) -> FunnelContent | None:
    """Return the funnel around the target of an outcome, where counts may not be told exactly.

    ``None`` where the plan has no target, or where strips may be shown instead.
    """
    if unit.is_full or outcome not in content.review.plan.audit.targets:
        return None
    mark, short_mark = marks_for(unit.checked, unit.audience)
    return target_funnel_of(
        content.review,
        [unit.checked],
        outcome,
        tell=tell_for(unit.checked, unit.audience),
        mark=mark,
        short_mark=short_mark,
    )
