"""The unit around the targets of the plan, as far as it may be told."""

from evsyn.figures.funnel import funnel_layout
from evsyn.reporting.page.drawings import NARROW, WIDE, drawing, figure
from evsyn.reporting.page.markup import Html, joined
from evsyn.reporting.report.content import ReportContent, UnitReport
from evsyn.reporting.target_funnel import target_funnel_of
from evsyn.reporting.told_outside import marks_for, tell_for


def target_funnels(content: ReportContent, held: UnitReport) -> Html:
    """Draw a performance funnel for each outcome that has a target and that the unit reports."""
    plan = content.review.plan
    reported = {name for group in held.checked.unit.groups for name in group.outcomes}
    tell = tell_for(held.checked, held.audience)
    mark, short_mark = marks_for(held.checked, held.audience)
    drawn = []
    for name in plan.outcomes:
        if name not in plan.audit.targets or name not in reported:
            continue
        found = target_funnel_of(
            content.review, [held.checked], name, tell=tell, mark=mark, short_mark=short_mark
        )
        narrow = drawing(funnel_layout(found, NARROW), f"n-target-{name}-", unit="unit")
        wide = drawing(funnel_layout(found, WIDE), f"w-target-{name}-", unit="unit")
        drawn.append(figure(f"target-{name}", narrow, wide))
    return joined(*drawn)
