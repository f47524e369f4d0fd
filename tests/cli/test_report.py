"""What people take away, as its user would ask for it."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from evsyn.cli import cli

ROOT = Path(__file__).parent.parent.parent
DEMO = ROOT / "studies" / "demo"
UNIT = DEMO / "unit-hollowmere.yaml"


def run(*words: object) -> Result:
    result = CliRunner().invoke(cli, [str(word) for word in words])
    assert result.exception is None or isinstance(result.exception, SystemExit)
    return result


def test_every_product_stands_beside_its_manifest(tmp_path: Path) -> None:
    folder = tmp_path / "out"
    kinds = ("--as", "page", "--as", "slides", "--as", "pocket")
    assert run("report", DEMO, *kinds, "-o", folder).exit_code == 0
    names = sorted(path.name for path in folder.iterdir())
    assert names == [
        "demo-pocket.pdf",
        "demo-pocket.txt",
        "demo.html",
        "demo.pptx",
        "manifest.json",
    ]
    (run_,) = json.loads((folder / "manifest.json").read_text(encoding="utf-8"))["runs"]
    assert list(run_["products"]) == names[:-1]
    assert "INVENTED" in (folder / "demo.html").read_text(encoding="utf-8")
    assert run("stale", folder).exit_code == 0


def test_a_report_says_for_whom_a_unit_stands_in_it(tmp_path: Path) -> None:
    result = run("report", DEMO, "--as", "page", "--unit", UNIT, "-o", tmp_path / "out")
    assert result.exit_code == 1
    assert "--for inside|outside" in result.output
    assert not (tmp_path / "out").exists()


def test_outside_no_product_holds_a_date_or_the_units_file(tmp_path: Path) -> None:
    folder = tmp_path / "out"
    words = ("report", DEMO, "--as", "page", "--as", "pocket", "--unit", UNIT)
    assert run(*words, "--for", "outside", "-o", folder).exit_code == 0
    for path in folder.iterdir():
        text = path.read_bytes().decode("utf-8", errors="replace")
        for word in ("2022-04", "2026-07-31", "unit-hollowmere.yaml"):
            assert word not in text, (path.name, word)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--as", "page", "--template", UNIT), "A template is for slides"),
        (("--as", "slides", "--template", UNIT), "Nothing was written"),
    ],
)
def test_slips_are_told_in_words(tmp_path: Path, words: tuple[object, ...], told: str) -> None:
    result = run("report", DEMO, *words, "-o", tmp_path / "out")
    assert result.exit_code == 1
    assert told in result.output
    assert not (tmp_path / "out").exists()
