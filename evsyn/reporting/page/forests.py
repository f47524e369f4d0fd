"""The forest plots of each outcome, as far as the page has room."""

from collections.abc import Iterator
from dataclasses import dataclass, field

from evsyn.extraction.load import CheckedUnit
from evsyn.figures.forest import ForestContent, forest_layout
from evsyn.reporting.forest import forest_of
from evsyn.reporting.page.drawings import NARROW, WIDE, Drawing, drawing, figure
from evsyn.reporting.page.evidence import evidence_links
from evsyn.reporting.page.markup import Html, element, folded, joined
from evsyn.reporting.report.content import OutcomeReport, ReportContent
from evsyn.reporting.report.foremost import foremost_strata
from evsyn.terms import Audience
from evsyn.wording.own_series import without_own_sentence
from evsyn.wording.report_page import other_plot


@dataclass(slots=True)
class _Plot:
    """One plot to draw, and what was drawn of it.

    ``label`` is that of its stratum; empty for the plot that stands first of its outcome.
    """

    name: str
    content: ForestContent
    links: dict[str, str]
    said: str
    label: str = ""
    drawn: dict[str, Drawing] = field(default_factory=dict)


def forests_of(content: ReportContent, room: int) -> dict[str, Html]:
    """Draw the forest plots of each outcome, first in the division that can be compared.

    Of the plots that stand first, narrow drawings come before wide ones, in the plan's order, as
    far as the room allows; a narrow one alone serves wide screens too. Then come the other
    divisions, folded, where both of their drawings have room.

    Parameters
    ----------
    content : ReportContent
        What the report says.
    room : int
        Bytes that all drawings may take.
    """
    plots = {item.name: list(_plots(content, item)) for item in content.outcomes}
    first = [found[0] for found in plots.values()]
    unit = "" if content.unit is None else "unit"
    for letter in "nw":
        for plot in first:
            made = _draw(plot, letter, unit)
            if made.size <= room:
                room -= made.size
                plot.drawn[letter] = made
    for plot in [one for found in plots.values() for one in found[1:]]:
        both = {letter: _draw(plot, letter, unit) for letter in "nw"}
        size = sum(one.size for one in both.values())
        if size <= room:
            room -= size
            plot.drawn = both
    return {name: _shown(found) for name, found in plots.items()}


def _plots(content: ReportContent, item: OutcomeReport) -> Iterator[_Plot]:
    """Yield an outcome's plots; the one of all studies where no paper states a level."""
    strata = foremost_strata(item, content.review.plan)
    checked, audience = _unit_drawn(content, item.name)
    own = () if checked is None else checked.unit.own_studies
    left_out = [cell.study for cell in item.overall.pooled.table.cells if cell.study in own]
    for stratum in strata or [None]:
        by = None if stratum is None else stratum.name
        is_first = stratum is None or stratum is strata[0]
        yield _Plot(
            name=f"forest-{item.name}" if is_first else f"forest-{item.name}-by-{by}",
            content=forest_of(content.review, item.name, by, checked, audience=audience),
            links=evidence_links(item, by),
            said=without_own_sentence(left_out, item.overall.pooled.answer.k),
            label="" if is_first or stratum is None else stratum.label,
        )


def _draw(plot: _Plot, letter: str, unit: str) -> Drawing:
    fmt = NARROW if letter == "n" else WIDE
    prefix = f"{letter}-{plot.name.removeprefix('forest-')}-"
    return drawing(forest_layout(plot.content, fmt), prefix, plot.links, unit=unit)


def _shown(plots: list[_Plot]) -> Html:
    first, *others = (_figure(plot) for plot in plots)
    return element("div", joined(first, *others), class_="drawn")


def _figure(plot: _Plot) -> Html:
    """Return a plot; one that does not stand first is folded, or missing without a word."""
    if not plot.label:
        return figure(plot.name, plot.drawn.get("n"), plot.drawn.get("w"), plot.said)
    if not plot.drawn:
        return Html("")
    made = figure(plot.name, plot.drawn["n"], plot.drawn["w"], plot.said)
    return folded(f"{plot.name}-fold", other_plot(plot.label), made)


def _unit_drawn(content: ReportContent, outcome: str) -> tuple[CheckedUnit | None, Audience | None]:
    """Return the unit where its rows may stand in a figure: inside, or with its counts released.

    An outcome that the unit does not report is drawn with every study, its own among them.
    """
    unit = content.unit
    if unit is None or not unit.is_full:
        return None, None
    if not any(outcome in group.outcomes for group in unit.checked.unit.groups):
        return None, None
    return unit.checked, unit.audience
