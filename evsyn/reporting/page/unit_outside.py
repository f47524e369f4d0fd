"""What of a unit may be told outside, and nothing else of it."""

from evsyn.audit.ascertainment import period_years
from evsyn.reporting.audit_outside import outside_counts
from evsyn.reporting.page.funnels import target_funnels
from evsyn.reporting.page.markup import Html, joined, paragraphs, section, words
from evsyn.reporting.page.tables import table
from evsyn.reporting.report.content import ReportContent, UnitReport
from evsyn.wording.audit import invented_sentence, outside_closing
from evsyn.wording.outside import (
    cases_sentence,
    head_sentence,
    outside_sentences,
    outside_verdict,
    told_words,
)
from evsyn.wording.report_page import UNIT_OUTSIDE

OUTSIDE_HEADINGS = ("Count of the unit", "Count", "Verdict")


def outside_section(content: ReportContent, held: UnitReport) -> Html:
    """Return the unit's whole counts as they may be told."""
    plan, unit, found = content.review.plan, held.checked.unit, held.audit
    told = outside_counts(found)
    cases = found.ascertainment
    opening = paragraphs(
        head_sentence(unit, period_years(unit)),
        *invented_sentence(unit.invented, content.review.invented),
        cases_sentence(cases.counted, cases.expected, plan.population),
    )
    rows = [
        [
            words(f"{plan.outcomes[item.outcome].label}, all cases"),
            words(told_words(item)),
            words(outside_verdict(item)),
        ]
        for item in told
    ]
    shown = table("told", unit.label, OUTSIDE_HEADINGS, rows)
    said = joined(*(paragraphs(*outside_sentences(item, plan)) for item in told))
    drawn = target_funnels(content, held)
    closing = paragraphs(*outside_closing())
    return section("unit", UNIT_OUTSIDE, opening, shown, said, drawn, closing)
