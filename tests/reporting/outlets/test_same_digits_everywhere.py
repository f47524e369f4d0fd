"""Every outlet prints the same digits of every pool, because all read one row of one answer.

What the engine answers is rounded anew (``printed.py``); what an outlet prints is read at the place
where it stands: a row of a table, a band of a figure, a title, a sentence under its heading.
"""

import math
from collections.abc import Callable, Iterable

import pytest

from evsyn.cells.levels import labelled_strata
from evsyn.terms import OVERALL, UNPLACED
from tests.reporting.outlets import drawn, made, own, paged, said, shown, terminal
from tests.reporting.outlets.made import Lines, Told, keys_of
from tests.reporting.outlets.printed import FIELDS
from tests.reporting.page import made as reports
from tests.reporting.page.made import review

Outlet = Callable[[str], Lines]
Keys = Callable[[str], Iterable[str]]

#: The talk is about no more outcomes than this; the others stand in its backup.
IN_A_TALK = 4


def whole(name: str) -> list[str]:
    return [f"{outcome}/overall" for outcome in review(name).plan.outcomes]


def levels(name: str) -> Iterable[str]:
    return made.engine(name)


def stated(name: str) -> list[str]:
    """Return the pools over all studies and at the levels that papers state."""
    plan = review(name).plan
    return [
        key
        for outcome in plan.outcomes
        for stratum in labelled_strata(plan)
        for words, key in keys_of(name, outcome, stratum).items()
        if words != "mixed or not stated"
    ]


def drawn_strata(name: str) -> list[str]:
    """Return the pools of each stratum that has a study at a level with a name."""
    plan, engine = review(name).plan, made.engine(name)
    drawn = []
    for outcome in plan.outcomes:
        for stratum in labelled_strata(plan):
            keys = list(keys_of(name, outcome, stratum).values())
            named = [key for key in keys if not key.endswith((OVERALL, UNPLACED))]
            if any(engine[key]["studies"] not in ("", "0") for key in named):
                drawn += keys
    return drawn


def main_outcomes(name: str) -> list[str]:
    return whole(name)[:IN_A_TALK]


def on_the_card(name: str) -> list[str]:
    return [key for key in stated(name) if key.startswith("perforation/")]


ROW = ("studies", "count", "headline", "read")
TITLE = ("studies", "count", "read")
CASES: dict[str, tuple[Outlet, tuple[str, ...], Keys]] = {
    "terminal, table": (terminal.terminal_table, ROW, levels),
    "terminal, sentence": (terminal.terminal_sentence, FIELDS, whole),
    "terminal, in full": (terminal.terminal_rows, ("headline", "read", "range"), whole),
    "trace": (terminal.trace, FIELDS, levels),
    "forest": (drawn.forest, FIELDS, levels),
    "page, tables": (paged.page_tables, FIELDS, levels),
    "page, sentences": (paged.page_sentences, FIELDS, levels),
    "page, forests": (paged.page_forests, FIELDS, drawn_strata),
    "slides, figures": (shown.slide_figures, FIELDS, stated),
    "slides, titles": (shown.slide_titles, TITLE, main_outcomes),
    "slides, notes": (shown.slide_notes, FIELDS, main_outcomes),
    "slides, words for who cannot see": (shown.slide_alternatives, FIELDS, stated),
    "pocket card": (said.pocket, TITLE, on_the_card),
    "claims": (said.claims, FIELDS, stated),
}
OWN: dict[str, Outlet] = {
    "audit": own.audit,
    "page, unit": own.page_part,
    "page, forests": own.page_forests,
    "slides, notes": own.slide_notes,
}


def differing(lines: Lines, engine: Told) -> list[str]:
    """Return where an outlet prints other digits than the engine gives."""
    told = []
    for key, found in lines:
        want = engine[key]
        point, of = want["read"].partition("/")[0], want["count"].rpartition(" ")[2]
        want = want | {"point": point, "of": of}
        told += [f"{key}: {f} {found[f]} for {want[f]}" for f in found if found[f] != want[f]]
    return told


def missing(lines: Lines, engine: Told, fields: Iterable[str], keys: Iterable[str]) -> list[str]:
    """Return what the engine answers and the outlet, which should, does not print."""
    seen: dict[str, set[str]] = {}
    for key, found in lines:
        seen.setdefault(key, set()).update(found)
    due = [(key, field) for key in keys if engine[key]["read"] for field in fields]
    return [
        f"{key}: {field}"
        for key, field in due
        if engine[key][field] and field not in seen.get(key, ())
    ]


def check(name: str, case: str) -> None:
    outlet, fields, keys = CASES[case]
    engine = made.engine(name)
    lines = list(outlet(name))
    assert not differing(lines, engine)
    assert not missing(lines, engine, fields, keys(name))


def test_the_engine_answers_many_pools_of_every_kind():
    engine = made.engine("demo").values()
    assert len(engine) >= 50
    assert sum(bool(line["read"]) for line in engine) >= 30
    assert any(line["read"] and not line["range"] for line in engine)
    assert any(line["studies"] == "1" for line in engine)


@pytest.mark.parametrize("case", CASES)
def test_an_outlet_prints_of_the_demo_review_what_the_engine_gives(case):
    check("demo", case)


@pytest.mark.slow
@pytest.mark.parametrize("case", CASES)
def test_an_outlet_prints_of_the_published_review_what_the_engine_gives(case):
    check("published", case)


@pytest.mark.parametrize(
    "case",
    [name if name == "audit" else pytest.param(name, marks=pytest.mark.slow) for name in OWN],
)
def test_a_unit_is_set_against_what_the_engine_gives_without_its_own_series(case):
    lines, engine = list(OWN[case]("demo")), made.engine_without_own()
    assert not differing(lines, engine)
    # Three outcomes of the unit, each at two levels of two strata and as a whole.
    assert sum("/" in found["read"] for _, found in lines) >= 15


def cut(proportion: float) -> str:
    """Cut off what should be rounded."""
    return f"{math.floor(1000 * proportion) / 10:.1f}%"


def cut_limits(low: float, high: float) -> str:
    return f"{cut(low)}-{cut(high)}".replace("%", "")


def cut_cell(value: float, low: float, high: float) -> str:
    return f"{cut(value)} ({cut_limits(low, high)})".replace("%", "")


BROKEN = [
    ("terminal, table", "evsyn.reporting.pool_text.cell", cut_cell),
    ("terminal, sentence", "evsyn.wording.pooled.percent", cut),
    ("terminal, in full", "evsyn.reporting.pool_text.limits", cut_limits),
    ("trace", "evsyn.wording.pooled.percent", cut),
    ("forest", "evsyn.figures.forest.sheet.percent", cut),
    pytest.param(
        "page, tables", "evsyn.reporting.page.answers.limits", cut_limits, marks=pytest.mark.slow
    ),
    pytest.param("page, sentences", "evsyn.wording.pooled.percent", cut, marks=pytest.mark.slow),
    pytest.param(
        "page, forests", "evsyn.figures.forest.sheet.percent", cut, marks=pytest.mark.slow
    ),
    pytest.param(
        "slides, figures", "evsyn.figures.forest.sheet.percent", cut, marks=pytest.mark.slow
    ),
    pytest.param(
        "slides, titles", "evsyn.wording.report_slides.percent", cut, marks=pytest.mark.slow
    ),
    pytest.param("slides, notes", "evsyn.wording.pooled.percent", cut, marks=pytest.mark.slow),
    pytest.param(
        "slides, words for who cannot see",
        "evsyn.wording.pooled.percent",
        cut,
        marks=pytest.mark.slow,
    ),
    ("pocket card", "evsyn.wording.pocket_strata.percent", cut),
    ("claims", "evsyn.wording.claims_held.percent", cut),
]
MADE = (reports.content, reports.page, paged.page, shown.talk)


@pytest.mark.parametrize(("case", "function", "broken"), BROKEN)
def test_an_outlet_that_rounds_otherwise_is_found(case, function, broken, monkeypatch):
    engine = made.engine("demo")
    for one in MADE:
        one.cache_clear()
    monkeypatch.setattr(function, broken)
    try:
        assert differing(CASES[case][0]("demo"), engine)
    finally:
        for one in MADE:
            one.cache_clear()


def test_every_outlet_is_broken_once():
    broken = {getattr(one, "values", one)[0] for one in BROKEN}
    assert broken == set(CASES)
