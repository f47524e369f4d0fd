"""A unit's own figures in full: for inside the unit, or released by a person."""

from evsyn.audit.ascertainment import period_years
from evsyn.audit.own_series import names_itself
from evsyn.audit.reasons import Reason
from evsyn.audit.standing import Standing
from evsyn.extraction.plan import Plan
from evsyn.reporting.audit_table import AUDIT_HEADINGS, audit_rows
from evsyn.reporting.page.funnels import target_funnels
from evsyn.reporting.page.markup import Html, element, joined, paragraphs, section, words
from evsyn.reporting.page.strips import unit_strips
from evsyn.reporting.page.tables import table
from evsyn.reporting.report.content import ReportContent, UnitReport
from evsyn.terms import OVERALL, Audience
from evsyn.wording.audit import (
    ascertainment_sentence,
    closing_sentences,
    group_words,
    invented_sentence,
    standing_sentences,
)
from evsyn.wording.audit_summary import summary_sentences
from evsyn.wording.outside import head_sentence
from evsyn.wording.own_series import alarm_sentences
from evsyn.wording.report_page import UNIT_INSIDE, UNIT_OUTSIDE
from evsyn.wording.standardised import standardised_sentences
from evsyn.wording.unit_file import flow_sentences, period_sentence


def inside_section(content: ReportContent, held: UnitReport) -> Html:
    """Return the unit's audit: ascertainment first, then each count.

    Dates and the flow of cases stay inside, even where exact counts were released.
    """
    plan, unit, found = content.review.plan, held.checked.unit, held.audit
    is_inside = held.audience is Audience.INSIDE
    head = period_sentence(unit) if is_inside else head_sentence(unit, period_years(unit))
    opening = paragraphs(
        head,
        *invented_sentence(unit.invented, content.review.invented),
        *alarm_sentences(found.alarms, can_check=names_itself(unit)),
        ascertainment_sentence(found.ascertainment, plan.population),
        *(flow_sentences(unit, plan) if is_inside else ()),
        *summary_sentences(found.standings, plan, 3, found.wholes),
    )
    rows = [[words(cell) for cell in row] for row in audit_rows(found, plan)]
    shown = table("audited", unit.label, AUDIT_HEADINGS, rows)
    counts = [_count(held, number, plan) for number in range(len(found.standings))]
    said = element("div", joined(*counts), class_="counts")
    drawn = joined(unit_strips(content, held), target_funnels(content, held))
    closing = paragraphs(*closing_sentences(found.looks))
    title = UNIT_INSIDE if is_inside else UNIT_OUTSIDE
    return section("unit", title, opening, shown, drawn, said, closing)


def _count(held: UnitReport, number: int, plan: Plan) -> Html:
    standing = held.audit.standings[number]
    title = f"{plan.outcomes[standing.outcome].label}: {group_words(standing, plan)}"
    said = paragraphs(*_sentences(standing, held, plan))
    return section(f"unit-{number + 1}", title, said, level=3)


def _sentences(standing: Standing, held: UnitReport, plan: Plan) -> tuple[str, ...]:
    said = standing_sentences(standing, plan)
    whole = held.audit.whole(standing.outcome) if standing.stratum == OVERALL else None
    if whole is None or standing.reason in (Reason.NO_FOLLOW_UP, Reason.REFUSED):
        return said
    return (*said, *standardised_sentences(whole, plan))
