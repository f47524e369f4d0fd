"""The table of evidence: every count that is pooled anywhere, with its place in the paper."""

from collections.abc import Iterator
from typing import TypeAlias

from evsyn.cells.cell import Cell, Mark
from evsyn.extraction.plan import Plan
from evsyn.figures.sources import source_id
from evsyn.reporting.page.markup import Html, element, folded, opening, paragraphs, section, words
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
    names: list[str] = []
    for outcome in content.outcomes:
        for number, (cell, pools) in enumerate(_cells(outcome).values(), start=1):
            rows.append(_row(cell, outcome, "; ".join(pools), numbers[cell.study], plan))
            names.append(_name(outcome, number))
            marks |= cell.marks
    shown = table(
        "evidence",
        say.rows_shown(len(rows)),
        say.EVIDENCE_HEADINGS,
        rows,
        name="evidence-table",
        row_names=names,
    )
    key = f"Marks: {mark_key(marks)}." if marks else ""
    held = folded("evidence-rows", say.table_of(len(rows)), _tools(), shown, is_open=True)
    return section("evidence", say.EVIDENCE, paragraphs(key), held)


def answers_of(outcome: OutcomeReport) -> Iterator[tuple[str, Answered]]:
    """Yield every pool of an outcome with its name, all studies first."""
    yield say.ALL_STUDIES, outcome.overall
    for stratum in outcome.strata:
        for answered in stratum.answers:
            yield f"{stratum.label}: {answered.title.lower()}", answered


def place_words(sources: tuple[Source, ...]) -> str:
    """Say where counts stand in the paper, and in which file and line."""
    return "; ".join(f"{one.place or say.NO_PLACE} ({short_source(one)})" for one in sources)


def evidence_links(outcome: OutcomeReport, stratum: str | None) -> dict[str, str]:
    """Return the id of each count's row by its name in the forest plot of one outcome.

    Parameters
    ----------
    outcome : OutcomeReport
        The outcome.
    stratum : str or None
        The stratum whose levels are the bands of the plot.
    """
    names = {key: _name(outcome, n) for n, key in enumerate(_cells(outcome), start=1)}
    drawn = [one for found in outcome.strata if found.name == stratum for one in found.answers]
    return {
        source_id(cell.sources): names[_key(cell)]
        for one in drawn or [outcome.overall]
        for cell in one.pooled.table.cells
    }


def _name(outcome: OutcomeReport, number: int) -> str:
    return f"count-{outcome.name}-{number}"


_Key: TypeAlias = tuple[str, int, int, tuple[Source, ...]]


def _key(cell: Cell) -> _Key:
    return (cell.study, cell.events, cell.total, cell.sources)


def _cells(outcome: OutcomeReport) -> dict[_Key, tuple[Cell, list[str]]]:
    """Return every count of an outcome once, with the pools it stands in."""
    found: dict[_Key, tuple[Cell, list[str]]] = {}
    for name, answered in answers_of(outcome):
        for cell in answered.pooled.table.cells:
            found.setdefault(_key(cell), (cell, []))[1].append(name)
    return found


def _row(cell: Cell, outcome: OutcomeReport, pools: str, number: int, plan: Plan) -> list[Html]:
    share = percent(cell.events / cell.total)
    basis = say.NOT_STATED if cell.basis == AS_PRINTED else plan.denominators[cell.basis]
    window = say.NOT_STATED if cell.window == NOT_STATED else plan.windows[cell.window].label
    return [
        element("a", words(cell.label), href=f"#ref-{number}"),
        element("a", words(outcome.label), href=f"#forest-{outcome.name}"),
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
