"""The table of evidence: every count that is pooled anywhere, with its place in the paper."""

from collections.abc import Iterator

from evsyn.cells.cell import Cell, Mark
from evsyn.extraction.plan import Plan
from evsyn.reporting.page.markup import Html, element, opening, paragraphs, section, words
from evsyn.reporting.page.tables import table
from evsyn.reporting.pool_text import short_source
from evsyn.reporting.report.content import Answered, OutcomeReport, ReportContent
from evsyn.terms import AS_PRINTED, NOT_STATED, Source
from evsyn.wording import report_page as say
from evsyn.wording.numbers import count, percent
from evsyn.wording.rows import mark_key, mark_letters


def evidence_section(content: ReportContent) -> Html:
    """Return every count that stands in a pool, once, with the pools it stands in."""
    plan = content.review.plan
    numbers = {item.study: item.number for item in content.references}
    rows: list[list[Html]] = []
    marks: frozenset[Mark] = frozenset()
    for outcome in content.outcomes:
        for cell, pools in _cells(outcome):
            rows.append(_row(cell, outcome.label, "; ".join(pools), numbers[cell.study], plan))
            marks |= cell.marks
    shown = table(
        "evidence",
        say.rows_shown(len(rows)),
        say.EVIDENCE_HEADINGS,
        rows,
        name="evidence-table",
    )
    key = f"Marks: {mark_key(marks)}." if marks else ""
    return section("evidence", say.EVIDENCE, paragraphs(key), _tools(), shown)


def answers_of(outcome: OutcomeReport) -> Iterator[tuple[str, Answered]]:
    """Yield every pool of an outcome with its name, all studies first."""
    yield say.ALL_STUDIES, outcome.overall
    for stratum in outcome.strata:
        for answered in stratum.answers:
            yield f"{stratum.label}: {answered.title.lower()}", answered


def place_words(sources: tuple[Source, ...]) -> str:
    """Say where counts stand in the paper, and in which file and line."""
    return "; ".join(f"{one.place or say.NO_PLACE} ({short_source(one)})" for one in sources)


def _cells(outcome: OutcomeReport) -> list[tuple[Cell, list[str]]]:
    found: dict[tuple[str, int, int, tuple[Source, ...]], tuple[Cell, list[str]]] = {}
    for name, answered in answers_of(outcome):
        for cell in answered.pooled.table.cells:
            key = (cell.study, cell.events, cell.total, cell.sources)
            found.setdefault(key, (cell, []))[1].append(name)
    return list(found.values())


def _row(cell: Cell, outcome: str, pools: str, number: int, plan: Plan) -> list[Html]:
    share = percent(cell.events / cell.total)
    basis = say.NOT_STATED if cell.basis == AS_PRINTED else plan.denominators[cell.basis]
    window = say.NOT_STATED if cell.window == NOT_STATED else plan.windows[cell.window].label
    return [
        element("a", words(cell.label), href=f"#ref-{number}"),
        words(outcome),
        words(pools),
        words(f"{count(cell.events, cell.total)} ({share})"),
        words(basis),
        words(window),
        words(place_words(cell.sources)),
        words(mark_letters(cell.marks)),
    ]


def _tools() -> Html:
    """Return what the script uses to filter the table; hidden without it."""
    wanted = element(
        "label", words(say.FILTER_LABEL), opening("input", id="evidence-filter", type="search")
    )
    every = element("option", words(say.FILTER_ALL), value="")
    outcome = element(
        "label", words(say.FILTER_OUTCOME), element("select", every, id="evidence-outcome")
    )
    number = element("span", id="evidence-number", aria_live="polite")
    given = '<div class="tools" id="evidence-tools" role="search" hidden>'
    return Html(f"{given}{wanted}{outcome}{number}</div>")
