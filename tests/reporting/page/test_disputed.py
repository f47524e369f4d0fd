"""The page's tables of disputed counts: every outcome, every step, each cell a pool of its own."""

import re
from dataclasses import replace

import pytest

from evsyn.cells.cell import Question
from evsyn.pooling.choose import answer_tables
from evsyn.pooling.review import answer_questions
from evsyn.reporting.page.disputed import STEPS, disputed_section
from evsyn.reporting.pool_disputed import disputed_text
from evsyn.wording.numbers import limits, percent
from evsyn.wording.page_disputed import DISPUTED_HEADINGS
from tests.reporting.page.made import content, page, review
from tests.reporting.page.read_html import parsed

QUESTION = Question("perforation")


def rows_of(outcome):
    """The cells of one outcome's table, as words."""
    (table,) = parsed(page()).by_id(f"disputed-{outcome}").all("table")
    rows = table.all("tbody")[0].all("tr")
    return [[cell.text for cell in row.all("th", "td")] for row in rows]


def said(row):
    """A row to read, as a cell begins and ends."""
    return percent(row.estimate).removesuffix("%"), f"({limits(row.low, row.high)})"


def test_every_pooled_outcome_has_every_study_and_every_step():
    for item in content().outcomes:
        if not item.overall.pooled.answer.show.pooled:
            assert item.label in parsed(page()).by_id("disputed").text
            continue
        rows = rows_of(item.name)
        read = item.overall.pooled.answer.reading.pooled
        assert len(rows) == 1 + item.overall.pooled.answer.k
        assert all(part in rows[0][0] for part in said(read))
        assert rows[0][1:] == [""] * (len(rows[0]) - 1)
        assert all(len(row) == len(DISPUTED_HEADINGS) == len(STEPS) + 3 for row in rows)


def test_the_terminal_says_the_same_where_it_shows_a_step():
    text = " ".join(disputed_text(review(), ["perforation"], []).split())
    for row in rows_of("perforation")[1:6]:
        for place in (1, 3, 4, 6, 7):
            if row[place] == "-":
                continue
            estimate, shift, *_ = row[place].split(" ")
            told = re.findall(rf"(?<!\S){re.escape(estimate)} ([+-]?\d+\.\d)(?!\d)", text)
            # The terminal's one decimal lies within half of it of the page's two.
            assert any(abs(float(one) - float(shift)) < 0.0551 for one in told)


@pytest.mark.parametrize("name", ["Yarrow 2017", "Mallow 2009"])
def test_each_cell_is_the_changed_table_pooled_alone(name):
    (told,) = [cells for cells in rows_of("perforation") if cells[0].startswith(name)]
    table = answer_questions(review(), [QUESTION])[QUESTION].table
    (at,) = [n for n, cell in enumerate(table.cells) if cell.label == name]
    for step, shown in zip(STEPS, told[1:7], strict=True):
        cell = table.cells[at]
        if not 0 <= cell.events + step <= cell.total:
            assert shown == "-"
            continue
        moved = replace(cell, events=cell.events + step)
        changed = replace(table, cells=(*table.cells[:at], moved, *table.cells[at + 1 :]))
        (fresh,) = answer_tables([changed], between="dersimonian_laird", level=0.95)
        first, last = said(fresh.reading.pooled)
        assert shown.startswith(first)
        assert shown.endswith(last)
    left = answer_questions(review(), [QUESTION], without=[table.cells[at].study])[QUESTION]
    first, last = said(left.answer.reading.pooled)
    assert told[7].startswith(first)
    assert told[7].endswith(last)


def test_what_would_take_minutes_is_left_to_the_command_and_named():
    made = disputed_section(content(), most=0)
    assert made.count("<table") == 1
    assert "Not here, since so many studies would take minutes: Technical success" in made
