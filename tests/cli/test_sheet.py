"""``evsyn sheet`` as its user would call it: three invented papers go in, a trap is caught."""

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from openpyxl import load_workbook

from evsyn.cli import cli
from evsyn.extraction.load import read_review

ROOT = Path(__file__).parent.parent.parent
DEMO = ROOT / "studies" / "demo"
#: The invented abstracts of tests/walks/papers, typed off by hand.
STUDIES = (
    {"study": "2023-hazel", "authors": "Hazel N, Rush P, Vetch O", "year": 2023,
     "title": "Fifty-eight stents through the channel before resection",
     "centres": "Cresswater Hospital", "recruited from": "2017-01", "recruited to": "2021-06"},
    {"study": "2019-medlar", "authors": "Medlar I, Quillwort S", "year": 2019,
     "title": "Stents for palliation in a small hospital: thirty-seven patients",
     "centres": "Low Fell Infirmary", "recruited from": 2013, "recruited to": 2017},
    {"study": "2021-aspen", "authors": "Aspen L, Bedstraw M, Comfrey J, Dock E", "year": 2021,
     "title": "Stents through the scope in seventy-five patients",
     "centres": "Upper Tarre; Nether Tarre", "recruited from": "2015-03",
     "recruited to": "2019-12"},
)  # fmt: skip
ARMS = (
    ("2023-hazel", "stent", "whole_study", "through_the_scope", "bridge_to_surgery", 58),
    ("2019-medlar", "stent", "whole_study", "radiological", "palliation", 37),
    ("2021-aspen", "palliation", "part", "through_the_scope", "palliation", 46),
    ("2021-aspen", "bridge", "part", "through_the_scope", "bridge_to_surgery", 29),
)
COUNTS = (
    ("2023-hazel", "stent", "technical_success", 55, 58, "attempted", "at_procedure", "94.8%"),
    ("2023-hazel", "stent", "perforation", 3, 58, "attempted", "30_days", "5.2%"),
    ("2023-hazel", "stent", "stoma_avoidance", 44, 58, "attempted", "follow_up", "75.9%"),
    ("2019-medlar", "stent", "technical_success", 34, 37, "attempted", "at_procedure", "91.9%"),
    ("2019-medlar", "stent", "perforation", 2, 37, "attempted", "30_days", "5.4%"),
    ("2019-medlar", "stent", "migration", 4, 34, "placed", "follow_up", "11.8%"),
    ("2021-aspen", "palliation", "technical_success", 43, 46, "attempted", "at_procedure", "93.5%"),
    ("2021-aspen", "palliation", "perforation", 4, 46, "attempted", "30_days", "8.7%"),
    ("2021-aspen", "bridge", "technical_success", 28, 29, "attempted", "at_procedure", "96.6%"),
    ("2021-aspen", "bridge", "perforation", 1, 29, "attempted", "30_days", "3.4%"),
)
ARM_HEADINGS = ("study", "arm", "covers", "device generation", "intent", "patients")
COUNT_HEADINGS = ("study", "arm", "outcome", "events", "total", "of", "window", "printed")


def run(*words: object) -> Result:
    result = CliRunner().invoke(cli, [str(word) for word in words])
    assert result.exception is None or isinstance(result.exception, SystemExit)
    assert "Traceback" not in result.output
    return result


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    return Path(shutil.copytree(DEMO, tmp_path / "my demo"))


def fill(sheet, rows) -> None:
    """Type rows, given by heading, below what stands in a sheet."""
    places = {cell.value: cell.column for cell in sheet[2]}
    for number, row in enumerate(rows, sheet.max_row + 1):
        for heading, value in row.items():
            sheet.cell(number, places[heading]).value = value


def type_in(path: Path, studies, arms, counts) -> None:
    book = load_workbook(path)
    read = {"extracted by": "QF", "extracted on": "2026-03-20", "extracted from": "abstract"}
    fill(book["Studies"], [{**study, **read} for study in studies])
    fill(book["Arms"], [dict(zip(ARM_HEADINGS, arm, strict=True)) for arm in arms])
    told = [dict(zip(COUNT_HEADINGS, count, strict=True), at="abstract") for count in counts]
    fill(book["Counts"], told)
    book.save(path)


def _rows(output: str, group: str) -> list[tuple[list[str], list[str]]]:
    """Return the words of each pair of rows of a group, before and with the papers."""
    lines = output.splitlines()
    return [
        (line.removeprefix(group).split(), lines[number + 1].split())
        for number, line in enumerate(lines)
        if line.startswith(group)
    ]


def test_three_papers_go_in_without_a_fault(demo: Path, tmp_path: Path) -> None:
    path = tmp_path / "papers.xlsx"
    before = {file.name: file.read_bytes() for file in demo.glob("*.yaml")}
    made = run("sheet", "make", demo, "-o", path, "--empty")
    assert (made.exit_code, "with empty rows" in made.output) == (0, True)
    type_in(path, STUDIES, ARMS, COUNTS)
    looked = run("sheet", "read", demo, path, "--dry")
    assert looked.exit_code == 0
    assert "Nothing was written, since --dry was given." in looked.output
    assert not (demo / "2023-hazel.yaml").exists()
    read = run("sheet", "read", demo, path)
    assert read.exit_code == 0
    first = " ".join(read.output.split("\n\n")[0].split())
    assert "(INVENTED DATA): 3 studies read; 0 faults, 0 open doubts" in first
    assert "New: 2021-aspen.yaml (2 arms, 4 counts)" in read.output
    assert "Not in the workbook at all, and kept as they are: 30 studies." in read.output
    assert f"Written: {demo / '2023-hazel.yaml'}\n" in read.output
    assert "What 3 studies move\n" in read.output
    assert "Next:\n  evsyn check" in read.output
    (before_it, with_it) = _rows(read.output, "all studies")[0]
    assert (before_it[:1], with_it[:1]) == (["before"], ["with"])
    assert "26 117 of 2,015" in " ".join(before_it)
    assert "29 127 of 2,185" in " ".join(with_it)
    review = read_review(demo)
    assert len(review.studies) == 33
    assert review.faults == ()
    after = {file.name: file.read_bytes() for file in demo.glob("*.yaml")}
    assert {name: after[name] for name in before} == before
    again = run("sheet", "read", demo, path)
    assert "Nothing to change" in again.output
    assert {file.name: file.read_bytes() for file in demo.glob("*.yaml")} == after


def test_a_percentage_of_another_denominator_is_doubted_by_its_cell(
    demo: Path, tmp_path: Path
) -> None:
    path = tmp_path / "trap.xlsx"
    run("sheet", "make", demo, "-o", path, "--empty")
    study = {**STUDIES[0], "study": "2022-spindle", "title": "Fifty-two attempts at a stent"}
    arm = ("2022-spindle", "stent", "whole_study", "through_the_scope", "palliation", 52)
    trap = ("2022-spindle", "stent", "perforation", 4, 52, "attempted", "30_days", "8.3%")
    type_in(path, [study], [arm], [trap])
    read = run("sheet", "read", demo, path)
    assert read.exit_code == 0
    said = " ".join(read.output.split())
    assert "Doubt: trap.xlsx (Counts!D3)" in said
    assert "[percentage-fits]" in said


def test_a_fault_stops_all_and_is_told_by_sheet_and_cell(demo: Path, tmp_path: Path) -> None:
    path = tmp_path / "papers.xlsx"
    run("sheet", "make", demo, "-o", path)
    book = load_workbook(path)
    book["Counts"]["F3"] = "atempted"
    book["Counts"]["D4"] = "seven"
    book.save(path)
    before = {file.name: file.read_bytes() for file in demo.glob("*.yaml")}
    read = run("sheet", "read", demo, path)
    assert read.exit_code == 1
    assert "Fault: papers.xlsx (Counts!D4)" in read.output
    assert read.output.endswith("Nothing is written while a fault stands.\n")
    assert {file.name: file.read_bytes() for file in demo.glob("*.yaml")} == before


def test_a_workbook_is_never_written_over(demo: Path, tmp_path: Path) -> None:
    path = tmp_path / "mine.xlsx"
    path.write_bytes(b"what I typed")
    made = run("sheet", "make", demo, "-o", tmp_path / "mine")
    assert made.exit_code == 1
    assert "there already, and may hold what somebody typed" in made.output
    assert path.read_bytes() == b"what I typed"


def test_what_was_emptied_left_out_and_changed_is_told(demo: Path, tmp_path: Path) -> None:
    path = tmp_path / "papers.xlsx"
    run("sheet", "make", demo, "-o", path)
    book = load_workbook(path)
    counts = book["Counts"]
    counts["D3"] = 1
    counts["I3"] = None
    counts.delete_rows(5)
    book.save(path)
    read = run("sheet", "read", demo, path)
    assert "    stent.perforation events: 1 (Counts!D3; was 0)" in read.output
    assert "Emptied in the workbook, and kept in the files:" in read.output
    assert "    Counts!I3 (1996-alder.yaml, stent.perforation at): Results, p. 16" in read.output
    assert "    1996-alder: stent.stoma_avoidance" in read.output


@pytest.mark.parametrize("words", [("make", "nowhere"), ("read", "nowhere", "none.xlsx")])
def test_what_is_not_there_is_told_in_a_sentence(tmp_path: Path, words: tuple[str, ...]) -> None:
    place = [tmp_path / word if word == "nowhere" else word for word in words]
    result = run("sheet", *place)
    assert result.exit_code == 1
    assert "1 fault" in result.output


def test_folder_and_workbook_the_other_way_round_are_told(demo: Path, tmp_path: Path) -> None:
    (tmp_path / "papers.xlsx").write_bytes(b"")
    read = run("sheet", "read", tmp_path / "papers.xlsx", demo)
    assert read.exit_code == 1
    assert "Give the folder first, then the workbook" in " ".join(read.output.split())


def test_a_plan_without_a_study_gets_a_workbook(demo: Path, tmp_path: Path) -> None:
    for path in demo.glob("*.yaml"):
        if path.name != "review.yaml":
            path.unlink()
    made = run("sheet", "make", demo, "-o", tmp_path / "first.xlsx")
    assert made.exit_code == 0
    type_in(tmp_path / "first.xlsx", STUDIES, ARMS, COUNTS)
    told = run("sheet", "read", demo, tmp_path / "first.xlsx").output
    assert told.count("Written: ") == 3
    assert "What 3 studies move" in told
    assert "Fewer than three studies are not pooled" in told
    assert len(read_review(demo).studies) == 3


def test_the_page_on_it_shows_the_fault_as_it_is_told(
    demo: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = (ROOT / "docs" / "how-to" / "fill-a-spreadsheet.md").read_text(encoding="utf-8")
    shown = page.partition("```text\n")[2].partition("```")[0]
    monkeypatch.chdir(tmp_path)
    run("sheet", "make", demo, "-o", "papers.xlsx")
    book = load_workbook("papers.xlsx")
    book["Counts"]["F3"] = "atempted"
    book.save("papers.xlsx")
    assert shown in run("sheet", "read", demo, "papers.xlsx").output
