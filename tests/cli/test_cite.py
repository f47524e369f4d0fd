"""``evsyn cite`` as a user would call it."""

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from evsyn.cli import cli
from evsyn.extraction.yaml_text import parse_bytes
from tests.extraction.builders import TinyReview

ROOT = Path(__file__).parent.parent.parent
DEMO = ROOT / "studies" / "demo"
RECORDS = ROOT / "tests" / "extraction" / "references" / "records"
KNOWN = (
    "TY  - JOUR\nAU  - Woodruff, C.\nTI  - Palliative and bridging stents in two neighbouring "
    "hospitals\nPY  - 2015\nER  - \n"
)


def run(*words: object, pasted: str | bytes | None = None) -> Result:
    result = CliRunner().invoke(cli, ["cite", *map(str, words)], input=pasted)
    assert result.exception is None or isinstance(result.exception, SystemExit)
    return result


def test_a_saved_record_becomes_a_block_that_reads() -> None:
    result = run(RECORDS / "tansy.nbib")
    root = parse_bytes(result.stdout.encode()).root
    assert result.exit_code == 0
    assert result.stderr == ""
    assert result.stdout.startswith("# From tansy.nbib, line 1 (PubMed).\ncitation:\n")
    assert root is not None
    assert root["citation"]["doi"] == "10.99999/invented.2014.22"


def test_a_pasted_record_is_met_in_the_review() -> None:
    result = run("-", "--against", DEMO, pasted=KNOWN)
    said = " ".join(result.stdout.replace("\n# ", " ").split())
    assert result.exit_code == 0
    assert "Same paper as the study 2016-woodruff (2016-woodruff.yaml, line" in said
    assert "title, a year apart" in said


def test_a_new_paper_is_said_to_be_new() -> None:
    result = run(RECORDS / "willow.ris", "--against", DEMO)
    assert "# Not among the 30 studies of the review.\n" in result.stdout


def test_what_reads_is_printed_beside_what_does_not() -> None:
    result = run("-", pasted=KNOWN + "\n@article{a, title={X")
    assert result.exit_code == 1
    assert "Palliative and bridging stents" in result.stdout
    assert "pasted text: 1 record read." in result.stderr
    assert "Fault: pasted text, line 7" in result.stderr


def test_several_blocks_stand_apart() -> None:
    blocks = run(RECORDS / "sorrel.bib").stdout.split("\n\n")
    assert [block.count("citation:") for block in blocks] == [1, 1]


@pytest.mark.parametrize("pasted", [b"", b"\xff\xfe\x00", b"plain words"])
def test_no_record_is_a_sentence(pasted: bytes) -> None:
    result = run("-", pasted=pasted)
    assert result.exit_code == 1
    assert "Fault: pasted text, line 1" in result.stderr


def test_paths_that_are_no_file_are_told(tmp_path: Path) -> None:
    assert "is a folder" in " ".join(run(tmp_path).stderr.split())
    assert "there is no such file" in " ".join(run(tmp_path / "x.ris").stderr.split())
    assert run(tmp_path).exit_code == run(tmp_path / "x.ris").exit_code == 1


def test_any_name_of_a_file(tmp_path: Path) -> None:
    path = tmp_path / "мой файл é.ris"
    shutil.copy(RECORDS / "willow.ris", path)
    assert "# From мой файл é.ris, line 1 (RIS).\n" in run(path).stdout


@pytest.mark.parametrize("alphabet", ["ascii", "cp1252"])
def test_letters_a_console_lacks_are_still_the_same_when_pasted(alphabet: str) -> None:
    record = "TY  - JOUR\nAU  - Šedge, Ł.\nTI  - Élan 王\nER  - \n".encode()
    result = CliRunner(charset=alphabet).invoke(cli, ["cite", "-"], input=record)
    root = parse_bytes(result.stdout_bytes).root
    assert root is not None
    assert root["citation"]["authors"] == "Šedge Ł"
    assert root["citation"]["title"] == "Élan 王"
    assert b"# Letters this console lacks" in result.stdout_bytes


def test_a_new_review_and_one_with_a_fault_can_be_compared_with(tmp_path: Path) -> None:
    tiny = TinyReview(tmp_path).reed(
        "of: attempted\n        window", "of: atempted\n        window"
    )
    result = run(RECORDS / "willow.ris", "--against", tmp_path)
    assert result.exit_code == 0
    assert "may be missing here" in result.stderr
    for path in tmp_path.glob("20*.yaml"):
        path.unlink()
    result = run(RECORDS / "willow.ris", "--against", tiny.folder)
    assert "# The review has no study yet." in result.stdout
    assert run(RECORDS / "willow.ris", "--against", tmp_path / "none").exit_code == 1
