"""The forest plot of each outcome, as far as the page has room."""

from evsyn.cells.levels import labelled_strata
from evsyn.extraction.load import CheckedUnit
from evsyn.extraction.plan import Plan
from evsyn.figures.forest import forest_layout
from evsyn.reporting.forest import forest_of
from evsyn.reporting.page.drawings import NARROW, WIDE, Drawing, drawing, figure
from evsyn.reporting.page.evidence import evidence_links
from evsyn.reporting.page.markup import Html
from evsyn.reporting.report.content import ReportContent
from evsyn.terms import Audience


def forests_of(content: ReportContent, room: int) -> dict[str, Html]:
    """Draw the forest plot of each outcome, in the division that the plan looks at first.

    Narrow drawings come first, in the plan's order, then wide ones, as far as the room allows; a
    narrow one alone serves wide screens too.

    Parameters
    ----------
    content : ReportContent
        What the report says.
    room : int
        Bytes that all drawings may take.
    """
    stratum = first_stratum(content.review.plan)
    checked, audience = _unit_drawn(content)
    narrow: dict[str, Drawing] = {}
    wide: dict[str, Drawing] = {}
    contents = {
        item.name: forest_of(content.review, item.name, stratum, checked, audience=audience)
        for item in content.outcomes
    }
    unit = "" if content.unit is None else "unit"
    links = {item.name: evidence_links(item, stratum) for item in content.outcomes}
    for kept, fmt, letter in ((narrow, NARROW, "n"), (wide, WIDE, "w")):
        for name, found in contents.items():
            drawn = drawing(forest_layout(found, fmt), f"{letter}-{name}-", links[name], unit=unit)
            if drawn.size <= room:
                room -= drawn.size
                kept[name] = drawn
    return {name: figure(f"forest-{name}", narrow.get(name), wide.get(name)) for name in contents}


def first_stratum(plan: Plan) -> str | None:
    """Return the stratum of the plan's primary indicator, or its first one with labels."""
    primary = plan.audit.primary
    if primary is not None and primary.stratum is not None:
        return primary.stratum
    return next(iter(labelled_strata(plan)), None)


def _unit_drawn(content: ReportContent) -> tuple[CheckedUnit | None, Audience | None]:
    """Return the unit where its rows may stand in a figure: inside, or with its counts released."""
    unit = content.unit
    if unit is None or not unit.is_full:
        return None, None
    return unit.checked, unit.audience
