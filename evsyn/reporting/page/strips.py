"""The unit's counts among those that ordinary new units of its size would show."""

from evsyn.cells.levels import labelled_strata
from evsyn.extraction.plan import Plan
from evsyn.figures.strip import strip_layout
from evsyn.reporting.audit_figures import strip_of
from evsyn.reporting.page.drawings import NARROW, WIDE, drawing, figure
from evsyn.reporting.page.markup import Html, element, joined
from evsyn.reporting.report.content import ReportContent, UnitReport
from evsyn.reporting.told_outside import marks_for, tell_for
from evsyn.terms import Audience

#: More outcomes than this make a page that nobody reads to its end.
MOST_STRIPS = 4


def unit_strips(content: ReportContent, held: UnitReport) -> Html:
    """Draw the count strips of the first outcomes a unit reports, the primary one before others.

    Parameters
    ----------
    content : ReportContent
        What the report says.
    held : UnitReport
        The unit, whose exact counts may be shown.
    """
    plan = content.review.plan
    reported = {
        standing.outcome for standing in held.audit.standings if standing.comparison is not None
    }
    named = plan.audit.primary
    ordered = sorted(plan.outcomes, key=lambda name: named is None or name != named.outcome)
    main = [name for name in ordered if name in reported][:MOST_STRIPS]
    drawn = [_strips(content, held, name) for name in main]
    return element("div", joined(*drawn), class_="strips") if drawn else Html("")


def _strips(content: ReportContent, held: UnitReport, outcome: str) -> Html:
    """Draw the whole of one outcome and the levels of the stratum that the plan looks at first."""
    mark, short_mark = marks_for(held.checked, held.audience)
    stratum = _first_stratum(content.review.plan)
    levels = {one.stratum for one in held.audit.standings if one.outcome == outcome}
    found = strip_of(
        content.review,
        held.checked,
        outcome,
        stratum=stratum if stratum in levels else None,
        with_whole=True,
        tell=tell_for(held.checked, held.audience),
        mark=mark,
        short_mark=short_mark,
        is_dated=held.audience is Audience.INSIDE,
    )
    narrow = drawing(strip_layout(found, NARROW), f"n-strip-{outcome}-", unit="unit")
    wide = drawing(strip_layout(found, WIDE), f"w-strip-{outcome}-", unit="unit")
    return figure(f"strip-{outcome}", narrow, wide)


def _first_stratum(plan: Plan) -> str | None:
    """Return the stratum of the plan's primary indicator, or its first one with labels."""
    primary = plan.audit.primary
    if primary is not None and primary.stratum is not None:
        return primary.stratum
    return next(iter(labelled_strata(plan)), None)
