"""``evsyn schema`` writes what an editor goes by, and ``evsyn check`` says when it is behind."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from evsyn.cli import cli
from tests.extraction.builders import TinyReview


def run(*words):
    result = CliRunner().invoke(cli, [str(word) for word in words])
    assert result.exception is None or isinstance(result.exception, SystemExit)
    return result


@pytest.fixture
def tiny(tmp_path):
    folder = tmp_path / "a review"
    folder.mkdir()
    return TinyReview(folder)


def test_five_schemas_in_the_words_of_the_plan(tiny):
    result = run("schema", tiny.folder)
    assert result.exit_code == 0, result.output
    names = {path.name for path in (tiny.folder / "schema").iterdir()}
    assert names == {"review.json", "study.json", "unit.json", "guidelines.json", "claims.json"}
    assert result.output.count("Written: ") == 5
    study = json.loads((tiny.folder / "schema" / "study.json").read_text(encoding="utf-8"))
    assert study["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert study["$defs"]["Count"]["properties"]["of"]["enum"] == [
        "attempted", "placed", "as_printed",
    ]  # fmt: skip


def test_a_second_run_changes_nothing(tiny):
    run("schema", tiny.folder)
    before = {path: path.read_bytes() for path in tiny.folder.rglob("*.json")}
    run("schema", tiny.folder)
    assert {path: path.read_bytes() for path in tiny.folder.rglob("*.json")} == before


def test_a_changed_plan_is_a_note_until_they_are_made_again(tiny):
    run("schema", tiny.folder)
    assert "schema-in-step" not in run("check", tiny.folder).output
    tiny.plan("bridge: bridge to surgery", "bridge: before an operation")
    told = run("check", tiny.folder)
    assert told.exit_code == 0
    assert "[schema-in-step]" in told.output
    run("schema", tiny.folder)
    assert "schema-in-step" not in run("check", tiny.folder).output


def test_faulty_extracts_do_not_stand_in_the_way(tiny):
    tiny.reed("events: 4\n", "events: four\n")
    assert run("schema", tiny.folder).exit_code == 0


def test_a_plan_that_cannot_be_read_is_told(tiny):
    tiny.plan("better: fewer", "better: less")
    result = run("schema", tiny.folder)
    assert result.exit_code == 1
    assert "'less'" in result.output
    assert not (tiny.folder / "schema").exists()


def test_no_review(tmp_path):
    result = run("schema", tmp_path / "nowhere")
    assert result.exit_code == 1
    assert "review.yaml" in result.output
    assert list(Path(tmp_path).iterdir()) == []
