"""A folder of products says what it was made from, and whether that is still so."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from evsyn.cli import cli
from evsyn.reporting.manifest import MANIFEST, read_manifest
from evsyn.wording.stale import stale_sentence

STEM = "hollowmere-2022-04-to-2026-03-inside"
DEMO = Path(__file__).parents[2] / "studies" / "demo"


def run(*words: object) -> Result:
    result = CliRunner().invoke(cli, [str(word) for word in words])
    assert result.exception is None or isinstance(result.exception, SystemExit)
    return result


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A copy of the demo, which commands are run beside."""
    for path in DEMO.iterdir():
        if path.is_file():
            (tmp_path / "demo").mkdir(exist_ok=True)
            (tmp_path / "demo" / path.name).write_bytes(path.read_bytes())
    monkeypatch.chdir(tmp_path)
    return tmp_path


def audited(audience: str, folder: str, unit: str = "unit-hollowmere.yaml") -> Result:
    unit_file = f"demo/{unit}"
    return run("audit", unit_file, "--against", "demo", "--for", audience, "--into", folder)


def test_what_is_written_is_true_until_something_changes(place: Path) -> None:
    assert audited("inside", "out").exit_code == 0
    fresh = run("stale", "out")
    assert fresh.exit_code == 0
    assert " ".join(fresh.output.split()).count("still true") == len(read_manifest(place / "out"))
    unit = place / "demo" / "unit-hollowmere.yaml"
    unit.write_text(unit.read_text(encoding="utf-8") + "# a word more\n", encoding="utf-8")
    told = run("stale", "out")
    assert told.exit_code == 1
    assert "inputs changed (../demo/unit-hollowmere.yaml)" in " ".join(told.output.split())
    assert "Made by: evsyn audit demo/unit-hollowmere.yaml" in " ".join(told.output.split())


def test_a_product_changed_by_hand_and_a_missing_input_are_told(place: Path) -> None:
    audited("inside", "out")
    text = place / "out" / f"{STEM}.txt"
    text.write_text("changed", encoding="utf-8")
    (place / "demo" / "1996-alder.yaml").unlink()
    fields = json.loads(run("stale", "out", "--json").output)["stale"]
    states = {item["product"]: item["states"] for item in fields}
    assert states[f"{STEM}.txt"] == ["input_missing", "changed_by_hand"]
    assert states[f"{STEM}.json"] == ["input_missing"]


def test_another_version_is_told(place: Path) -> None:
    audited("inside", "out")
    path = place / "out" / MANIFEST
    path.write_text(
        path.read_text(encoding="utf-8").replace('"numpy": "', '"numpy": "0.'), encoding="utf-8"
    )
    told = run("stale", "out")
    assert told.exit_code == 1
    assert "version changed (numpy 0." in " ".join(told.output.split())


def test_outside_nothing_of_the_units_file_is_recorded(place: Path) -> None:
    assert audited("outside", "out").exit_code == 0
    written = (place / "out" / MANIFEST).read_text(encoding="utf-8")
    assert "unit-hollowmere" not in written
    assert "evsyn audit UNIT --against demo" in written
    assert "cannot be seen" in run("stale", "out").output


def test_inside_and_outside_never_share_a_folder(place: Path) -> None:
    audited("inside", "out")
    before = sorted(path.name for path in (place / "out").iterdir())
    refused = audited("outside", "out")
    assert refused.exit_code == 1
    assert "Give each a folder of its own" in " ".join(refused.output.split())
    assert sorted(path.name for path in (place / "out").iterdir()) == before


def test_a_case_log_is_an_input_inside(place: Path) -> None:
    audited("inside", "out", "unit-tarnbeck.yaml")
    (entry, *_) = read_manifest(place / "out")
    assert "../demo/tarnbeck-cases.csv" in entry.inputs


def test_several_runs_keep_one_entry_a_product(place: Path) -> None:
    audited("inside", "out")
    first = len(read_manifest(place / "out"))
    audited("inside", "out")
    assert len(read_manifest(place / "out")) == first
    audited("inside", "out", "unit-tarnbeck.yaml")
    assert len(read_manifest(place / "out")) > first
    runs = json.loads((place / "out" / MANIFEST).read_text(encoding="utf-8"))["runs"]
    assert len(runs[0]["products"]) == first
    assert len(runs) == 2


def test_no_place_of_the_machine_is_written_down(place: Path) -> None:
    folder = place / "out"
    run("audit", place / "demo" / "unit-hollowmere.yaml", "--against", place / "demo",
        "--for", "inside", "--into", folder)  # fmt: skip
    assert place.name not in (folder / MANIFEST).read_text(encoding="utf-8")


def test_of_many_changed_inputs_five_are_named_and_the_others_counted() -> None:
    changed = [f"{number}.yaml" for number in range(1, 10)]
    told = stale_sentence("out/page.html", ["inputs_changed"], changed, "evsyn report x")
    assert "(1.yaml; 2.yaml; 3.yaml; 4.yaml; 5.yaml; and 4 more)" in told
    assert "more" not in stale_sentence("a", ["inputs_changed"], changed[:5], "evsyn report x")


@pytest.mark.parametrize("is_beside", [pytest.param(True, marks=pytest.mark.slow), False])
def test_the_demo_can_be_judged_wherever_evsyn_is_installed(
    is_beside: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(DEMO.parents[1] if is_beside else tmp_path)
    folder = tmp_path / "outputs" / "demo"
    assert run("demo", "-o", folder).exit_code == 0
    fresh = run("stale", tmp_path / "outputs")
    assert fresh.exit_code == 0, fresh.output
    held = {entry.name: entry for entry in read_manifest(folder)}
    assert held.keys() == {path.name for path in folder.iterdir() if path.is_file()} - {MANIFEST}
    assert held["1-check.txt"].audience is None
    assert held["5-audit.txt"].audience == "inside"
    assert any("unit-hollowmere" in name for name in held["5-audit.txt"].inputs)
    assert not any("unit-hollowmere" in name for name in held["2-pool.txt"].inputs)
    (outside,) = read_manifest(folder / "outside")
    assert (outside.name, outside.audience) == ("8-audit-outside.txt", "outside")
    for place in (folder, folder / "outside"):
        written = (place / MANIFEST).read_text(encoding="utf-8")
        assert DEMO.parents[1].as_posix() not in written
        assert tmp_path.as_posix() not in written
    assert "unit-hollowmere" not in (folder / "outside" / MANIFEST).read_text(encoding="utf-8")
    (folder / "2-pool.txt").write_text("changed", encoding="utf-8")
    told = run("stale", tmp_path / "outputs")
    assert told.exit_code == 1
    assert "2-pool.txt: changed since it was written" in " ".join(told.output.split())


def test_a_folder_without_a_manifest_is_told(place: Path) -> None:
    told = run("stale", "demo")
    assert told.exit_code == 1
    assert "holds no manifest.json" in told.output


def test_a_broken_manifest_is_no_traceback(place: Path) -> None:
    (place / "out").mkdir()
    (place / "out" / MANIFEST).write_text('{"products": 3}', encoding="utf-8")
    told = run("stale", "out")
    assert told.exit_code == 1
    assert "is not a manifest that this version of evsyn wrote" in " ".join(told.output.split())


def test_all_folders_below_one_are_looked_at(place: Path) -> None:
    audited("inside", "out/ours")
    audited("outside", "out/theirs")
    told = run("stale", "out")
    assert told.exit_code == 0
    assert "out/ours/" in told.output
    assert "out/theirs/" in told.output
