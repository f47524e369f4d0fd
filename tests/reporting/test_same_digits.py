"""Every outlet prints the same digits, because all read one reading row."""

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from evsyn.cells.cell import Question
from evsyn.cli import cli
from evsyn.extraction.load import read_review
from evsyn.pooling.answer import Row
from evsyn.pooling.review import answer_questions
from evsyn.wording.numbers import cell, percent, span

ROOT = Path(__file__).parent.parent.parent
CASES = [("demo", "perforation"), ("published", "perforation"), ("published", "technical_success")]


def said(*words: object) -> str:
    result = CliRunner().invoke(cli, [str(word) for word in words])
    assert result.exit_code == 0, result.output
    return " ".join(result.output.split())


@pytest.mark.parametrize(("name", "outcome"), CASES)
def test_sentence_table_json_trace_and_figure_agree(
    name: str, outcome: str, tmp_path: Path
) -> None:
    folder = ROOT / "studies" / name
    review = read_review(folder)
    (pooled,) = answer_questions(review, [Question(outcome)]).values()
    answer = pooled.answer
    assert answer.reading is not None
    read, head = answer.reading.pooled, answer.rows[Row.HEADLINE]
    sentence = f"a typical setting sees {percent(read.estimate)} ({span(read.low, read.high)})"
    printed = f"gives {percent(head.estimate)} ({span(head.low, head.high)})"
    table = f"{cell(head.estimate, head.low, head.high)} {cell(read.estimate, read.low, read.high)}"

    text = said("pool", folder, outcome)
    assert sentence in text
    assert printed in text
    assert table in text

    found = json.loads(said("pool", folder, outcome, "--json"))
    (overall,) = [a for a in found["answers"] if a["key"] == f"{outcome}/overall"]
    assert sentence in overall["sentence"]
    row = overall["rows"][overall["reading_row"]]
    assert percent(row["estimate"]) == percent(read.estimate)

    traced = said("trace", folder, outcome)
    assert sentence in traced

    drawing = tmp_path / "f.svg"
    said("forest", folder, outcome, "-o", drawing)
    words = " ".join(re.sub(r"<[^>]+>", " ", drawing.read_text(encoding="utf-8")).split())
    assert f"{percent(read.estimate)} ({span(read.low, read.high)})" in words
    assert f"{percent(head.estimate)} ({span(head.low, head.high)})" in words
