"""The page's table of disputed counts is the terminal's, and each cell a pool of its own."""

import html
import re
from pathlib import Path

import pytest

from evsyn.cells.cell import Question
from evsyn.extraction.load import read_review
from evsyn.pooling.review import answer_questions
from evsyn.reporting.page.disputed import disputed_section
from evsyn.reporting.pool_disputed import HEADINGS, disputed_text
from evsyn.reporting.report.content import report_content
from evsyn.wording.numbers import limits, percent

REVIEW = read_review(Path(__file__).parents[3] / "studies" / "demo")


@pytest.fixture(scope="module")
def rows():
    """The cells of the table, as words."""
    made = disputed_section(report_content(REVIEW))
    body = made[made.index("<tbody>") :]
    found = []
    for row in body.split("<tr>")[1:]:
        cells = re.findall(r"<t[hd][^>]*>(.*?)(?=<t[hd]|$)", row, flags=re.S)
        plain = (html.unescape(re.sub(r"<[^>]+>", " ", cell)) for cell in cells)
        found.append([" ".join(text.split()) for text in plain])
    return found


def test_every_study_has_its_row(rows):
    table = answer_questions(REVIEW, [Question("perforation")])[Question("perforation")].table
    assert len(rows) == table.k
    assert all(len(row) == len(HEADINGS) for row in rows)


def test_the_terminal_says_the_same(rows):
    said = " ".join(disputed_text(REVIEW, ["perforation"], []).split())
    for row in rows[:5]:
        for cell in row[1:]:
            assert cell.split(" (")[0] in said


def test_a_study_left_out_is_a_pool_without_it(rows):
    question = Question("perforation")
    fresh = answer_questions(REVIEW, [question], without=["2017-yarrow"])[question]
    row = fresh.answer.reading.pooled
    (told,) = [cells for cells in rows if cells[0].startswith("Yarrow 2017")]
    assert told[-1].startswith(percent(row.estimate).removesuffix("%"))
    assert told[-1].endswith(f"({limits(row.low, row.high)})")
