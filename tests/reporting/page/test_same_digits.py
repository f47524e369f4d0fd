"""The page prints the digits of the terminal and of the JSON."""

import json

import pytest
from click.testing import CliRunner

from evsyn.cli import cli
from evsyn.wording.numbers import cell, count, limits
from tests.reporting.page.made import STUDIES, content, page
from tests.reporting.page.read_html import parsed


def said(*words):
    result = CliRunner().invoke(cli, [str(word) for word in words])
    assert result.exit_code == 0, result.output
    return result.output


def rows_of(table):
    return [[c.text for c in row.all("th", "td")] for row in table.all("tbody")[0].all("tr")]


@pytest.mark.parametrize("outcome", ["perforation", "technical_success", "migration"])
def test_every_row_of_an_answer_is_one_of_the_terminal_and_of_the_json(outcome):
    text = [" ".join(line.split()) for line in said("pool", STUDIES / "demo", outcome).splitlines()]
    found = json.loads(said("pool", STUDIES / "demo", outcome, "--json"))
    held = {item["key"]: item for item in found["answers"]}
    (report,) = [item for item in content().outcomes if item.name == outcome]
    section = parsed(page()).by_id(f"outcome-{outcome}")
    tables = [t for t in section.all("table") if t.attributes["class"] == "answers"]
    by_caption = {table.all("caption")[0].text: table for table in tables}
    assert len(by_caption) == len(tables) == len(report.strata)
    for stratum in report.strata:
        table = by_caption[f"{report.label}: {stratum.label}"]
        for answered, row in zip((*stratum.answers, report.overall), rows_of(table), strict=True):
            line = " ".join(row[:-1]).lower()
            assert line.strip() in [one.lower() for one in text]
            item = held[answered.question.key]
            if item["reading_row"] is None:
                continue
            head, read = item["rows"]["headline"], item["rows"][item["reading_row"]]
            shown = item["show"] in {"five_to_nine_studies", "ten_studies_or_more"}
            assert row[3] == cell(head["estimate"], head["low"], head["high"])
            assert row[4] == cell(read["estimate"], read["low"], read["high"])
            reach = limits(read["prediction_low"], read["prediction_high"])
            assert row[5] == (reach if shown else "none given")


def test_the_answer_in_one_screen_repeats_the_rows_of_each_outcome_by_generation_and_intent():
    root = parsed(page())
    summed, *blocks = root.by_id("answer").all("table")
    assert sum(len(rows_of(block)) for block in blocks) <= 40
    wholes = {row[0]: row[1:] for row in rows_of(summed)}
    assert list(wholes) == [item.label for item in content().outcomes]
    shown = {block.all("caption")[0].text: rows_of(block) for block in blocks}
    for item in content().outcomes:
        levels = shown.get(item.label, [])
        tables = root.by_id(f"outcome-{item.name}").all("table")
        held = [
            row for one in tables if one.attributes["class"] == "answers" for row in rows_of(one)
        ]
        assert ["All studies", *wholes[item.label]] in held
        for row in levels:
            assert [row[0].partition(": ")[2] or row[0], *row[1:]] in held
        named = {row[0].partition(": ")[0] for row in levels if ": " in row[0]}
        assert named == ({"Device generation", "Intent"} if levels else set())
    assert len(blocks) == 4


def test_every_pooled_count_stands_in_the_table_of_evidence_with_its_place():
    rows = rows_of(parsed(page()).by_id("evidence-table"))
    told = {(row[0], row[1], row[3].partition(" (")[0]): row for row in rows}
    for item in content().outcomes:
        for answered in (item.overall, *(a for s in item.strata for a in s.answers)):
            for one in answered.pooled.table.cells:
                row = told[one.label, item.label, count(one.events, one.total)]
                for source in one.sources:
                    assert f":{source.line})" in row[6]
                    assert (source.place or "place not given") in row[6]


def test_the_figures_print_the_same_digits():
    root = parsed(page())
    for item in content().outcomes[:2]:
        read = item.overall.pooled.answer.reading.pooled
        drawn = root.by_id(f"forest-{item.name}").text
        assert f"{100 * read.estimate:.1f}% (" in drawn
        assert item.overall.sentence.partition(": ")[2].partition(", by")[0][2:] in drawn
