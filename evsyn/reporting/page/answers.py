"""The answer in one screen: each outcome over all studies and by the levels with names."""

from evsyn.cells.levels import level_names
from evsyn.pooling.answer import Row, Show
from evsyn.pooling.tables import PooledTable
from evsyn.reporting.page.markup import (
    Html,
    element,
    folded,
    joined,
    listing,
    paragraphs,
    section,
    words,
)
from evsyn.reporting.page.order import primary_first
from evsyn.reporting.page.tables import table
from evsyn.reporting.page.unsaid import levels_not_compared
from evsyn.reporting.pool_text import group_row
from evsyn.reporting.report.content import OutcomeReport, ReportContent, StratumReport
from evsyn.reporting.report.foremost import foremost_strata
from evsyn.terms import UNPLACED
from evsyn.wording import report_page as say
from evsyn.wording.audit_summary import primary_sentence
from evsyn.wording.numbers import limits
from evsyn.wording.pocket_strata import short_difference
from evsyn.wording.pooled import TOO_WIDE, too_wide_to_quote


def answer_section(content: ReportContent) -> Html:
    """Return one table of all studies, then the levels of each outcome, and what differs."""
    ordered = primary_first(content)
    rows = [_outcome(item) for item in ordered]
    headings = (say.OUTCOME, *say.ANSWER_HEADINGS)
    whole = element("div", table("answers", say.ALL_STUDIES, headings, rows), class_="whole")
    blocks = [_block(content, item) for item in ordered]
    summed = element("div", joined(*blocks), class_="blocks")
    held = folded("answer-levels", say.BY_LEVEL, summed, is_open=True) if any(blocks) else summed
    told = listing(*_differences(content), *levels_not_compared(content))
    beside = paragraphs(say.doubts_beside(len(content.review.open_doubts)), content.cautions)
    return section(
        "answer",
        say.ANSWER,
        _unit_line(content),
        paragraphs(say.ANSWER_READ),
        whole,
        held,
        told,
        beside,
    )


def _unit_line(content: ReportContent) -> Html:
    """Name the unit and lead to its section; inside also where its main count stands."""
    held = content.unit
    if held is None:
        return Html("")
    plan, found = content.review.plan, held.audit
    link = element("a", words(say.unit_link(held.checked.unit.label)), href="#unit")
    said = primary_sentence(found.standings, plan, found.wholes) if held.is_full else ""
    return element("p", link, words(f" {said}"), class_="ours")


def _outcome(item: OutcomeReport) -> list[Html]:
    link = element("a", words(item.label), href=f"#outcome-{item.name}")
    return answer_row(link, item.overall.pooled)


def _block(content: ReportContent, item: OutcomeReport) -> Html:
    """Return the levels of an outcome that hold a study; empty where none does."""
    if item.overall.pooled.answer.show is Show.REFUSED:
        return Html("")
    strata = foremost_strata(item, content.review.plan)
    rows = [row for found in strata for row in _levels(found)]
    if not rows:
        return Html("")
    headings = (say.LEVEL, *say.ANSWER_HEADINGS)
    return table("answers", item.label, headings, rows, link=f"#outcome-{item.name}")


def _levels(found: StratumReport) -> list[list[Html]]:
    """Return the named levels of one stratum that hold a study; the first names the stratum."""
    held = [one for one in found.answers if one.question.level != UNPLACED and one.pooled.answer.k]
    rows = []
    for number, one in enumerate(held):
        stratum = "" if number else element("span", words(f"{found.label}: "), class_="stratum")
        label = element("span", Html(f"{stratum}{words(one.title)}"), class_="of")
        rows.append(answer_row(label, one.pooled))
    return rows


def _differences(content: ReportContent) -> list[str]:
    """Say of each outcome whether the levels of each labelled stratum differ, where tested."""
    plan = content.review.plan
    return [
        say.levels_differ(
            item.label,
            found.label,
            short_difference(found.difference, level_names(plan.strata[found.name])),
        )
        for item in primary_first(content)
        for found in foremost_strata(item, plan)
        if found.difference.test is not None
    ]


def answer_row(label: Html, pooled: PooledTable) -> list[Html]:
    """Return the row that the terminal prints, with the range of an ordinary new setting."""
    *printed, read = group_row("", pooled)[1:]
    cells = [words(text) for text in (*printed, read, _range(pooled))]
    if too_wide_to_quote(pooled.answer):
        cells[-2] = joined(cells[-2], element("span", words(TOO_WIDE), class_="toowide"))
    return [label, *cells]


def _range(pooled: PooledTable) -> str:
    reading = pooled.answer.reading
    if reading is None or not pooled.answer.show.verdict:
        return say.NO_RANGE if pooled.answer.rows.get(Row.HEADLINE) else ""
    return limits(reading.pooled.prediction_low, reading.pooled.prediction_high)
