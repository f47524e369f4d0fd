"""The answer in one screen: each outcome over all studies and by the levels with names."""

from evsyn.cells.levels import labelled_strata, level_names
from evsyn.pooling.answer import Row, Show
from evsyn.pooling.tables import PooledTable
from evsyn.reporting.page.markup import Html, element, joined, listing, paragraphs, section, words
from evsyn.reporting.page.tables import table
from evsyn.reporting.page.unsaid import levels_not_compared
from evsyn.reporting.pool_text import group_row
from evsyn.reporting.report.content import OutcomeReport, ReportContent, StratumReport
from evsyn.terms import UNPLACED
from evsyn.wording import report_page as say
from evsyn.wording.audit_summary import primary_sentence
from evsyn.wording.numbers import limits
from evsyn.wording.pocket_strata import short_difference
from evsyn.wording.pooled import TOO_WIDE, too_wide_to_quote


def answer_section(content: ReportContent) -> Html:
    """Return a small table an outcome, and what cannot be told, in one screen."""
    blocks = [_block(content, item) for item in content.outcomes]
    summed = element("div", joined(*blocks), class_="blocks")
    told = listing(*_differences(content), *levels_not_compared(content))
    beside = paragraphs(say.doubts_beside(len(content.review.open_doubts)), content.cautions)
    return section(
        "answer", say.ANSWER, _unit_line(content), paragraphs(say.ANSWER_READ), summed, told, beside
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


def _block(content: ReportContent, item: OutcomeReport) -> Html:
    rows = [answer_row(words(say.ALL_STUDIES), item.overall.pooled)]
    labelled = labelled_strata(content.review.plan)
    if item.overall.pooled.answer.show is not Show.REFUSED:
        for found in item.strata:
            rows += _levels(found) if found.name in labelled else []
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
        for item in content.outcomes
        for found in item.strata
        if found.name in labelled_strata(plan) and found.difference.test is not None
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
