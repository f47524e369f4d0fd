"""How the papers were found, and for each outcome how many are counted, left out or silent."""

from evsyn.reporting.page.markup import Html, listing, paragraphs, section, words
from evsyn.reporting.page.tables import table
from evsyn.reporting.report.content import OutcomeReport, ReportContent
from evsyn.wording import page_found as say
from evsyn.wording.report_slides import search_lines


def found_section(content: ReportContent) -> Html:
    """Return the search, and an account of every study for each outcome."""
    rows = [_row(item, len(content.review.studies)) for item in content.outcomes]
    caption = say.fate_caption(len(content.review.studies))
    shown = table("found", caption, say.FOUND_HEADINGS, rows)
    searched = listing(*search_lines(content.review.plan))
    return section("search", say.FOUND, searched, shown, paragraphs(say.FATE_READ))


def _row(item: OutcomeReport, studies: int) -> list[Html]:
    held = item.overall.pooled.table
    counted = {cell.study for cell in held.cells}
    left = {row.study for row in held.left_out} - counted
    numbers = (len(counted), len(left), studies - len(counted) - len(left))
    return [words(item.label), *(words(f"{number:,}") for number in numbers)]
