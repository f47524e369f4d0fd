"""Counts that report an outcome and are not pooled, with the reasons."""

from evsyn.cells.cell import LeftOut
from evsyn.reporting.page.evidence import answers_of, place_words
from evsyn.reporting.page.markup import Html, element, folded, paragraphs, section, words
from evsyn.reporting.page.tables import table
from evsyn.reporting.report.content import OutcomeReport, ReportContent
from evsyn.wording import report_page as say
from evsyn.wording.numbers import count


def left_out_section(content: ReportContent) -> Html:
    """Return what was left out of each pool."""
    numbers = {item.study: item.number for item in content.references}
    rows = [
        _row(item, outcome.label, "; ".join(pools), numbers[item.study])
        for outcome in content.outcomes
        for item, pools in _items(outcome)
    ]
    if not rows:
        return section("left-out", say.LEFT_OUT, paragraphs(say.NOTHING_LEFT_OUT))
    caption = say.rows_shown(len(rows))
    shown = table("left-out", caption, say.LEFT_OUT_HEADINGS, rows)
    held = folded("left-out-rows", say.table_of(len(rows)), shown, is_open=True)
    return section("left-out", say.LEFT_OUT, held)


def _items(outcome: OutcomeReport) -> list[tuple[LeftOut, list[str]]]:
    found: dict[LeftOut, tuple[LeftOut, list[str]]] = {}
    for name, answered in answers_of(outcome):
        for item in answered.pooled.table.left_out:
            found.setdefault(item, (item, []))[1].append(name)
    return list(found.values())


def _row(item: LeftOut, outcome: str, pools: str, number: int) -> list[Html]:
    return [
        element("a", words(item.label), href=f"#ref-{number}"),
        words(outcome),
        words(pools),
        words(count(item.events, item.total)),
        words(item.reason),
        words(place_words((item.source,))),
    ]
