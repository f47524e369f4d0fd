"""Schemas on disk: those of the package, and those of a review, in step with code and plan."""

from pathlib import Path

import pytest

import evsyn.extraction.schema
from evsyn.extraction.load import read_review
from evsyn.extraction.schema.__main__ import main
from evsyn.extraction.schema.folder import first_line, schema_notes, schema_texts
from evsyn.extraction.schema.schemas import KINDS

PACKAGED = Path(evsyn.extraction.schema.__file__).parent / "generic"
STUDIES = Path(__file__).parent.parent.parent.parent / "studies"


def test_those_of_the_package_are_in_step_with_the_code(tmp_path):
    main(tmp_path)
    made = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    kept = {path.name: path.read_bytes() for path in PACKAGED.iterdir()}
    assert made == kept, "run `make reference`"
    assert set(made) == {f"{kind}.json" for kind in KINDS}


@pytest.mark.parametrize("review", ["demo", "published", "published-trials"])
def test_those_of_each_review_are_in_step_with_its_plan(review):
    folder = STUDIES / review
    assert (folder / "schema").is_dir()
    assert list(schema_notes(folder, read_review(folder).plan)) == []


@pytest.mark.parametrize("path", sorted(STUDIES.glob("*/*.yaml")), ids=lambda path: path.stem)
def test_each_file_names_its_schema_in_its_first_line(path):
    first, *others = path.read_text(encoding="utf-8").splitlines()
    kind = next(kind for kind in KINDS if any(one.startswith(f"{kind}:") for one in others))
    assert first == first_line(kind)
    assert (path.parent / first.partition("$schema=")[2]).is_file()


def test_a_folder_without_schemas_is_not_spoken_of(tiny):
    assert list(schema_notes(tiny.folder, tiny.read().plan)) == []


def test_a_file_that_asks_for_a_schema_that_is_not_there_is_told(tiny):
    tiny.reed("format: 1", f"{first_line('study')}\nformat: 1")
    (note,) = schema_notes(tiny.folder, tiny.read().plan)
    assert note.message == "2001-reed.yaml names a schema in its first line, and there is none"
    assert note.cure == f"Make them once: evsyn schema {tiny.folder.as_posix()}"


def test_a_changed_plan_is_told_with_what_to_do(tiny):
    folder = tiny.folder / "schema"
    folder.mkdir()
    for name, text in schema_texts(tiny.read().plan).items():
        (folder / name).write_text(text, encoding="utf-8")
    assert list(schema_notes(tiny.folder, tiny.read().plan)) == []
    tiny.plan("bridge: bridge to surgery", "bridge: before an operation")
    (note,) = schema_notes(tiny.folder, tiny.read().plan)
    assert note.severity == "note"
    assert "study.json, unit.json, claims.json" in note.message
    assert "evsyn schema" in note.cure


def test_a_missing_or_broken_schema_is_told(tiny):
    (tiny.folder / "schema").mkdir()
    (tiny.folder / "schema" / "study.json").write_bytes(b"\xff\xfe")
    (note,) = schema_notes(tiny.folder, tiny.read().plan)
    assert "review.json, study.json, unit.json" in note.message


def test_the_review_is_read_as_if_the_folder_were_not_there(tiny):
    before = tiny.read()
    (tiny.folder / "schema").mkdir()
    (tiny.folder / "schema" / "study.json").write_text("{}", encoding="utf-8")
    after = tiny.read()
    assert after.findings == before.findings
    assert after.studies == before.studies
