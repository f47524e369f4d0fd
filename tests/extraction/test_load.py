"""Reading a folder: whatever lies in it, findings and never a traceback, and nothing changed."""

import pytest

from evsyn.extraction.load import UnreadableError, read_review, read_unit
from evsyn.terms import Severity
from tests.extraction.builders import (
    PLAN,
    PLAN_FILE,
    REED,
    REED_FILE,
    UNIT,
    line_of,
)


def refused(folder):
    with pytest.raises(UnreadableError) as caught:
        read_review(folder)
    return caught.value.findings


def test_studies_come_by_year_and_name(tiny):
    tiny.write("2001-aster.yaml", REED.replace("2001-reed", "2001-aster"))
    tiny.write("yearless.yaml", REED.replace("2001-reed", "yearless").replace("  year: 2001\n", ""))
    names = [study.study for study in tiny.read().studies]
    assert names == ["2001-aster", "2001-reed", "2010-sedge", "yearless"]


def test_no_such_folder(tmp_path):
    (finding,) = refused(tmp_path / "nowhere")
    assert finding.message == "there is no such folder"


def test_a_file_instead_of_a_folder(tiny):
    (finding,) = refused(tiny.folder / PLAN_FILE)
    assert finding.message == "this is a file, and a review is a folder"


def test_a_folder_that_cannot_be_opened(tiny, monkeypatch):
    def closed(_):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("pathlib.Path.iterdir", closed)
    (finding,) = refused(tiny.folder)
    assert finding.message == "the folder cannot be opened (Permission denied)"


def test_a_missing_plan_is_told_with_all_other_faults(tiny):
    (tiny.folder / PLAN_FILE).unlink()
    tiny.reed("events: 4\n", "events: -4\n")
    findings = refused(tiny.folder)
    assert [one.message for one in findings] == [
        "the file is missing",
        "'events' is '-4', and must be at least 0",
    ]
    assert findings[0].cure == "Write it, or give another folder."


def test_a_plan_under_another_ending_is_offered(tiny):
    (tiny.folder / PLAN_FILE).rename(tiny.folder / f"{PLAN_FILE}.txt")
    assert refused(tiny.folder)[0].cure == f"Rename {PLAN_FILE}.txt to {PLAN_FILE}."


def test_an_empty_folder(tmp_path):
    (finding,) = refused(tmp_path)
    assert finding.source.file == PLAN_FILE


def test_a_plan_alone_is_a_review_of_no_studies(tmp_path):
    (tmp_path / PLAN_FILE).write_text(PLAN, encoding="utf-8")
    assert read_review(tmp_path).studies == ()


def test_a_study_that_cannot_be_read_stops_no_other(tiny):
    review = tiny.write(REED_FILE, "a: [\n").read()
    assert [study.study for study in review.studies] == ["2010-sedge"]
    assert [one.source.file for one in review.faults] == [REED_FILE]


def test_a_folder_in_the_place_of_a_file(tiny):
    (tiny.folder / "odd.yaml").mkdir()
    (finding,) = tiny.found()
    assert finding.source.file == "odd.yaml"
    assert finding.message.startswith("the file cannot be opened")


def test_which_files_are_read(tiny):
    tiny.write("notes.txt", "a: [").write("README.md", "a: [")
    assert tiny.found() == []
    tiny.write("2002-aster.YAML", REED.replace("2001-reed", "2002-aster"))
    tiny.write("2003-aster.yml", REED.replace("2001-reed", "2003-aster"))
    assert len(tiny.read().studies) == 4


@pytest.mark.parametrize(
    "raw",
    [b"", b"\xff\xfe", REED.encode("utf-16"), REED.replace("Nowhere", "Köln").encode("latin-1"),
     b"\x00" * 50, b"[" * 100_000, b"a: 1\n---\nb: 2\n", b"- 1\n", b"&a [*a]", b"key: " + b"9" * 99,
     b"\t", REED.replace("events: 4\n", "events: 9999999999999999\n").encode()],
)  # fmt: skip
def test_whatever_a_study_file_holds_is_one_finding(tiny, raw):
    (finding,) = tiny.write(REED_FILE, raw).found()
    assert finding.severity is Severity.FAULT
    assert finding.source.file == REED_FILE
    assert finding.message and finding.cure.endswith((".", ")."))


def test_windows_files_read_as_others(tiny):
    before = tiny.read().studies[0]
    after = tiny.write(REED_FILE, ("\ufeff" + REED.replace("\n", "\r\n")).encode()).read()
    assert after.studies[0] == before
    assert after.findings == ()


@pytest.mark.parametrize(
    ("written", "message", "cure"),
    [
        ("format: 2", "the file has format 2, and this version of evsyn reads format 1",
         "Use a newer version of evsyn."),
        ("format: 99", "the file has format 99, and this version of evsyn reads format 1",
         "Use a newer version of evsyn."),
        ("format: 0", "the file has format 0, which does not exist", "Write 'format: 1'."),
        ("format: -1", "the file has format -1, which does not exist", "Write 'format: 1'."),
        ("format: '1'", "'format' must be a whole number without quotes, and is '1'",
         "Write 'format: 1'."),
        ("format: 1.0", "'format' must be a whole number without quotes, and is '1.0'",
         "Write 'format: 1'."),
        ("format: true", "'format' must be a whole number without quotes, and is 'true'",
         "Write 'format: 1'."),
        ("format: [1]", "'format' must be a whole number without quotes, and is a list",
         "Write 'format: 1'."),
        ("# none", "'format' is missing", "Write 'format: 1' on the first line."),
        ("format:", "'format' is missing", "Write 'format: 1' on the first line."),
        ("formt: 1", "'format' is missing",
         "Write 'format: 1' on the first line (line 1 says 'formt')."),
    ],
)  # fmt: skip
@pytest.mark.parametrize("file", [PLAN_FILE, REED_FILE])
def test_the_format_number(tiny, file, written, message, cure):
    (finding,) = tiny.change(file, "format: 1", written).found()
    assert (finding.message, finding.source.file, finding.source.line) == (message, file, 1)
    assert finding.cure == cure


def test_the_gravest_findings_come_first(tiny):
    tiny.reed('printed: "7.7%"', 'printed: "9.9%"')
    tiny.reed("        at: Table 2, p. 5\n        printed", "        printed")
    tiny.sedge("events: 2, total: 30", "events: 31, total: 30")
    assert [one.severity for one in tiny.found()] == [
        Severity.FAULT, Severity.DOUBT, Severity.DOUBT,
    ]  # fmt: skip


def test_an_answered_doubt_comes_after_an_open_one(tiny):
    tiny.reed('printed: "7.7%"', 'printed: "9.9%"')
    tiny.reed("        at: Table 2, p. 5\n        printed", "        printed")
    tiny.reed(
        "arms:\n",
        "answers:\n  - {rule: percentage-fits, reason: misprint, by: XY, on: 2026-01-06}\narms:\n",
    )
    review = tiny.read()
    assert [one.rule for one in review.findings] == ["place-missing", "percentage-fits"]
    assert [one.rule for one in review.open_doubts] == ["place-missing"]


def test_a_unit_file_in_the_folder_is_no_study(tiny):
    tiny.unit("format: 1\n", "format: 1\nnonsense: 3\n")
    assert tiny.found() == []
    (finding,) = tiny.found_in_unit()
    assert finding.message == "'nonsense' is not a field here"


def test_no_such_unit_file(tiny):
    with pytest.raises(UnreadableError) as caught:
        read_unit(tiny.folder / "none.yaml", tiny.read().plan)
    assert caught.value.findings[0].message == "there is no such file"


def test_a_unit_with_a_fault_is_refused(tiny):
    with pytest.raises(UnreadableError):
        tiny.unit("events: 1, total: 12", "events: 13, total: 12").read_unit()


def test_a_unit_file_elsewhere(tiny, tmp_path_factory):
    path = tmp_path_factory.mktemp("unit") / "figures.yaml"
    path.write_text(UNIT, encoding="utf-8")
    unit = read_unit(path, tiny.read().plan).unit
    assert unit.source("frozen_on").file == "figures.yaml"


def test_every_finding_names_a_line_that_is_there(tiny):
    tiny.reed("strata: {intent: palliation}", "strata: {intent: paliation}")
    (finding,) = tiny.found()
    assert finding.source.line == line_of(tiny.folder, REED_FILE, "paliation")
    assert str(finding.source) == f"{REED_FILE}, line {finding.source.line}"


def test_reading_changes_no_file(tiny):
    def state():
        return {
            path.name: (path.read_bytes(), path.stat().st_mtime_ns)
            for path in tiny.folder.iterdir()
        }

    tiny.write("broken.yaml", b"\xff")
    before = state()
    tiny.found()
    tiny.found_in_unit()
    assert state() == before


def test_the_error_says_all_messages(tmp_path):
    with pytest.raises(UnreadableError, match="there is no such folder"):
        read_review(tmp_path / "x")
