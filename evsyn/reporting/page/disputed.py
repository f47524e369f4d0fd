"""What if a count were disputed: the row to read with each count a little off, or left out."""

from evsyn.pooling.disputed import disputed_pool
from evsyn.reporting.page.markup import Html, element, joined, listing, paragraphs, section, words
from evsyn.reporting.page.tables import table
from evsyn.reporting.pool_disputed import HEADINGS, KEY, disputed_row, said_of, target_of
from evsyn.reporting.report.content import OutcomeReport, ReportContent
from evsyn.wording import report_page as say
from evsyn.wording.disputed import comes_in_lines, disputed_sentence, otherwise_lines


def disputed_section(content: ReportContent) -> Html:
    """Return what one disputed count could change, for the plan's primary outcome.

    Every cell is a pool of its own, so the other outcomes are left to the command line.
    """
    item = _primary(content)
    pooled = item.overall.pooled
    if not pooled.answer.show.pooled:
        return Html("")
    pool = disputed_pool(content.review, pooled)
    said = said_of(content.review, pool)
    ordered = sorted(said, key=lambda one: -one.study.largest_shift)
    rows = [[_cell(text) for text in disputed_row(one)] for one in ordered]
    shown = table("disputed", item.label, HEADINGS, rows, labelled=True)
    told = [*otherwise_lines(said), *comes_in_lines(said)]
    sentence = disputed_sentence(said, target=target_of(content.review, pool))
    others = say.disputed_elsewhere(content.review.plan.review, item.name)
    return section(
        "disputed", say.DISPUTED, paragraphs(sentence), listing(*told), shown,
        paragraphs(KEY, others),
    )  # fmt: skip


def _primary(content: ReportContent) -> OutcomeReport:
    named = content.review.plan.audit.primary
    asked = None if named is None else named.outcome
    return next((item for item in content.outcomes if item.name == asked), content.outcomes[0])


def _cell(text: str) -> Html:
    """Keep the two lines of a cell apart."""
    first, *rest = text.split("\n")
    return joined(words(first), *(element("span", words(line), class_="second") for line in rest))
