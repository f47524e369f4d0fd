"""Doubts that the checks raised, open ones first, with what was answered."""

from evsyn.reporting.page.markup import Html, element, folded, paragraphs, section, words
from evsyn.reporting.page.tables import table
from evsyn.reporting.report.content import ReportContent
from evsyn.terms import Finding, Severity
from evsyn.wording import report_page as say
from evsyn.wording.page_doubts import DOUBT_HEADINGS, DOUBTS_READ, THE_REVIEW, subject


def doubts_section(content: ReportContent) -> Html:
    """Return every doubt; notes ask for nothing and are left to the checks."""
    found = [item for item in content.review.findings if item.severity is Severity.DOUBT]
    if not found:
        return section("doubts", say.DOUBTS, paragraphs(say.NO_DOUBTS))
    studies = _by_file(content)
    outcomes = {item.name: item.label for item in content.outcomes}
    ordered = sorted(found, key=lambda item: not item.is_open)
    rows = [_row(item, studies, outcomes) for item in ordered]
    shown = table("doubts", say.rows_shown(len(rows)), DOUBT_HEADINGS, rows)
    held = folded("doubts-rows", say.table_of(len(rows)), shown, is_open=True)
    return section("doubts", say.DOUBTS, paragraphs(DOUBTS_READ), held)


def _by_file(content: ReportContent) -> dict[str, Html]:
    """Return each study as a link to its reference, by the file it stands in."""
    linked = {
        item.study: element("a", words(item.label), href=f"#ref-{item.number}")
        for item in content.references
    }
    return {study.source("study").file: linked[study.study] for study in content.review.studies}


def _row(item: Finding, studies: dict[str, Html], outcomes: dict[str, str]) -> list[Html]:
    reply = item.answer
    told = say.OPEN if reply is None else f"{reply.reason} ({reply.by}, {reply.on})"
    return [
        studies.get(item.source.file, words(THE_REVIEW)),
        words(subject(item.source.key_path, outcomes)),
        words(item.message),
        words(told),
        words(f"{item.source}"),
    ]
