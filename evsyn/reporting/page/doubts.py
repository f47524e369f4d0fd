"""Doubts that the checks raised, open ones first, with what was answered."""

from evsyn.reporting.page.markup import Html, paragraphs, section, words
from evsyn.reporting.page.tables import table
from evsyn.reporting.report.content import ReportContent
from evsyn.terms import Finding, Severity
from evsyn.wording import report_page as say


def doubts_section(content: ReportContent) -> Html:
    """Return every doubt; notes ask for nothing and are left to the checks."""
    found = [item for item in content.review.findings if item.severity is Severity.DOUBT]
    if not found:
        return section("doubts", say.DOUBTS, paragraphs(say.NO_DOUBTS))
    rows = [_row(item) for item in sorted(found, key=lambda item: not item.is_open)]
    shown = table("doubts", say.rows_shown(len(rows)), say.DOUBT_HEADINGS, rows)
    return section("doubts", say.DOUBTS, shown)


def _row(item: Finding) -> list[Html]:
    path = f" ({item.source.key_path})" if item.source.key_path else ""
    reply = item.answer
    told = say.OPEN if reply is None else f"{reply.reason} ({reply.by}, {reply.on})"
    return [words(f"{item.source}{path}"), words(item.message), words(item.cure), words(told)]
