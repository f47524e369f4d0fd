"""Nothing of a unit's own is written without saying for whom."""

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


def test_an_audit_has_no_default_audience() -> None:
    result = run("audit", UNIT, "--against", DEMO)
    assert result.exit_code == 2
    assert "--for" in result.output


def test_a_forest_plot_with_a_unit_asks_for_whom(tmp_path: Path) -> None:
    target = tmp_path / "f.svg"
    result = run("forest", DEMO, "perforation", "--unit", UNIT, "-o", target)
    assert result.exit_code == 1
    assert "--for inside|outside" in result.output
    assert not target.exists()


def test_outside_a_units_row_needs_a_release(tmp_path: Path) -> None:
    target = tmp_path / "f.svg"
    words = ("forest", DEMO, "perforation", "--by", "intent", "--unit", UNIT, "-o", target)
    result = run(*words, "--for", "outside")
    assert result.exit_code == 1
    assert "holds no 'release'" in " ".join(result.output.split())
    assert not target.exists()


@pytest.fixture
def released(tmp_path: Path) -> Path:
    unit = tmp_path / "unit.yaml"
    text = UNIT.read_text(encoding="utf-8")
    release = "release: {approved_by: lead, on: 2026-08-03, basis: a talk, levels: true}\n"
    unit.write_text(text + release, encoding="utf-8")
    return unit


def test_a_release_is_printed_on_the_figure(tmp_path: Path, released: Path) -> None:
    target = tmp_path / "f.svg"
    words = ("forest", DEMO, "perforation", "--by", "intent", "--unit", released, "-o", target)
    assert run(*words, "--for", "outside").exit_code == 0
    drawn = target.read_text(encoding="utf-8")
    assert "released by lead" in drawn
    assert "official-sensitive" not in drawn


def test_inside_is_marked_on_the_figure(tmp_path: Path) -> None:
    target = tmp_path / "f.svg"
    words = ("forest", DEMO, "perforation", "--by", "intent", "--unit", UNIT, "-o", target)
    assert run(*words, "--for", "inside").exit_code == 0
    assert "official-sensitive" in target.read_text(encoding="utf-8")


def test_a_unit_file_is_checked_against_its_review() -> None:
    alone = run("check", UNIT)
    assert alone.exit_code == 1
    assert "--against" in alone.output
    result = run("check", UNIT, "--against", DEMO)
    assert result.exit_code == 0
    assert "the unit's figures read" in " ".join(result.output.split())


def test_a_faulty_unit_file_is_told_in_one_list(tmp_path: Path) -> None:
    unit = tmp_path / "unit.yaml"
    text = UNIT.read_text(encoding="utf-8")
    unit.write_text(text.replace("events: 2\n", "events: 92\n", 1), encoding="utf-8")
    result = run("check", unit, "--against", DEMO)
    assert result.exit_code == 1
    assert "92 events of 19 cannot be" in " ".join(result.output.split())


STEM = "hollowmere-2022-04-to-2026-03-inside"
BEFORE = DEMO / "hollowmere-2018-to-2022.yaml"


def test_a_period_is_set_against_the_one_before() -> None:
    words = ("audit", UNIT, "--against", DEMO, "--for", "inside", "--before", BEFORE)
    said = " ".join(run(*words).output.split())
    assert "Against the period before, 2018-04 to 2022-03" in said
    assert "The period before: 5 of 24 (20.8%" in said
    assert "regression to the mean" in said


def test_periods_that_share_months_are_refused() -> None:
    result = run("audit", UNIT, "--against", DEMO, "--for", "inside", "--before", UNIT)
    assert result.exit_code == 1
    assert "a case would stand in both" in " ".join(result.output.split())


def test_periods_given_the_wrong_way_round_are_told() -> None:
    result = run("audit", BEFORE, "--against", DEMO, "--for", "inside", "--before", UNIT)
    assert result.exit_code == 1
    assert "is the later period. Give it first" in " ".join(result.output.split())


def test_another_unit_is_no_earlier_period(tmp_path: Path) -> None:
    other = tmp_path / "other.yaml"
    text = BEFORE.read_text(encoding="utf-8").replace("unit: hollowmere", "unit: elsewhere")
    other.write_text(text, encoding="utf-8")
    result = run("audit", UNIT, "--against", DEMO, "--for", "inside", "--before", other)
    assert result.exit_code == 1
    assert "an earlier one of the same unit" in " ".join(result.output.split())


def test_two_periods_outside_give_a_count_back() -> None:
    result = run("audit", UNIT, "--against", DEMO, "--for", "outside", "--before", BEFORE)
    assert result.exit_code == 1
    assert "by subtraction" in " ".join(result.output.split())


def test_everything_goes_into_one_folder(tmp_path: Path) -> None:
    words = ("audit", UNIT, "--against", DEMO, "--for", "inside", "--into", tmp_path / "out")
    result = run(*words)
    names = {path.name for path in (tmp_path / "out").iterdir()}
    assert {f"{STEM}.txt", f"{STEM}.json", "manifest.json"} <= names
    assert all(name in result.output for name in names)
