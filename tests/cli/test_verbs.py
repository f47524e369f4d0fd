"""Every verb as its user would call it: exit code, sentence first, no traceback on faults."""

import json
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from evsyn.cells.levels import studies_stating
from evsyn.cli import cli
from evsyn.extraction.load import read_review

ROOT = Path(__file__).parent.parent.parent
DEMO = ROOT / "studies" / "demo"
PUBLISHED = ROOT / "studies" / "published"
UNIT = DEMO / "unit-hollowmere.yaml"


def run(*words: object) -> Result:
    result = CliRunner().invoke(cli, [str(word) for word in words])
    assert result.exception is None or isinstance(result.exception, SystemExit)
    assert "Traceback" not in result.output
    return result


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    return Path(shutil.copytree(DEMO, tmp_path / "demo"))


def test_check_says_the_sentence_first_and_ends_well() -> None:
    result = run("check", DEMO)
    assert result.exit_code == 0
    first = " ".join(result.output.partition("\n\n")[0].split())
    assert first.endswith("30 studies read; 0 faults, 5 open doubts (3 answered), 1 note.")


def test_check_of_the_published_review_has_no_fault() -> None:
    result = run("check", PUBLISHED, "--json")
    found = json.loads(result.output)
    assert result.exit_code == 0
    assert found["json_format"] == 1
    assert found["faults"] == 0
    assert found["doubts_open"] + found["doubts_answered"] >= 50
    assert all(f["source"]["line"] > 0 and f["source"]["file"] for f in found["findings"])


def test_check_of_the_trials_has_no_fault_and_pool_compares_them() -> None:
    trials = ROOT / "studies" / "published-trials"
    assert json.loads(run("check", trials, "--json").output)["faults"] == 0
    found = json.loads(run("pool", trials, "morbidity", "anastomotic_leak", "--json").output)
    compared = {one["outcome"]: one for one in found["comparisons"]}
    assert compared["morbidity"]["k"] == 5
    assert compared["morbidity"]["reading_row"] == "restricted_ml"
    # In all leaks no stent arm has one, so there is no ratio to read.
    assert compared["anastomotic_leak"]["reading_row"] is None
    marks = [mark for one in compared["morbidity"]["studies"] for mark in one["marks"]]
    assert "read second hand" in marks


def test_strict_makes_an_open_doubt_an_error() -> None:
    assert run("check", DEMO, "--strict").exit_code == 1


def test_a_fault_stops_everything_and_changes_nothing(demo: Path) -> None:
    study = demo / "1999-campion.yaml"
    broken = study.read_text(encoding="utf-8").replace("events: 0", "events: 99", 1)
    study.write_text(broken, encoding="utf-8")
    for words in (
        ("check", demo),
        ("pool", demo),
        ("forest", demo, "perforation", "-o", demo / "f.svg"),
        ("audit", demo / "unit-hollowmere.yaml", "--against", demo, "--for", "inside"),
        ("trace", demo, "perforation"),
    ):
        result = run(*words)
        assert result.exit_code == 1
        assert "1999-campion.yaml" in result.output
        assert "cannot be" in result.output
    assert not (demo / "f.svg").exists()
    assert study.read_text(encoding="utf-8") == broken


def test_an_unknown_word_offers_the_nearest() -> None:
    assert "Did you mean 'perforation'?" in run("pool", DEMO, "perforations").output
    assert "Did you mean 'intent'?" in run("pool", DEMO, "--by", "intents").output
    assert run("pool", DEMO, "perforations").exit_code == 1


@pytest.mark.parametrize("verb", ["check", "pool"])
def test_a_missing_folder_is_a_sentence(verb: str, tmp_path: Path) -> None:
    result = run(verb, tmp_path / "nowhere")
    assert result.exit_code == 1
    assert "there is no such folder" in result.output.lower()


def test_pool_fits_eighty_columns() -> None:
    for line in run("pool", PUBLISHED, "perforation").output.splitlines():
        assert len(line) <= 80 or "http" in line


def test_generation_opens_with_how_many_state_it() -> None:
    result = run("pool", PUBLISHED, "perforation", "--by", "device_generation")
    said = " ".join(result.output.split())
    review = read_review(PUBLISHED)
    stating = len(studies_stating(review, "device_generation"))
    number = len(review.studies)
    assert f"{stating} of {number} studies state how the stent was delivered" in said
    assert "cannot be compared from these papers for perforation" in said
    assert "Era of recruitment (cut 2004) stands in for device generation" in said
    assert "What to look up for perforation" in said


def test_stoma_avoidance_shows_its_four_counts_and_no_pooled_value() -> None:
    found = json.loads(run("pool", PUBLISHED, "stoma_avoidance", "--json").output)
    (overall,) = [a for a in found["answers"] if a["key"] == "stoma_avoidance/overall"]
    shown = [(s["events"], s["total"]) for s in overall["studies"]]
    shown += [(s["events"], s["total"]) for s in overall["left_out"]]
    assert sorted(shown) == [(19, 26), (23, 35), (45, 52), (48, 53)]
    assert overall["show"] == "not_pooled_by_plan"
    assert overall["rows"] == {}
    assert overall["reading_row"] is None


def test_pool_writes_whole_files(tmp_path: Path) -> None:
    target = tmp_path / "made" / "pool.txt"
    result = run("pool", DEMO, "perforation", "-o", target)
    assert result.exit_code == 0
    assert target.read_text(encoding="utf-8").startswith("INVENTED DATA")
    assert [path.name for path in target.parent.iterdir()] == ["pool.txt"]


@pytest.mark.parametrize("ending", ["svg", "png", "pdf"])
def test_forest_writes_by_extension(ending: str, tmp_path: Path) -> None:
    target = tmp_path / f"f.{ending}"
    assert run("forest", DEMO, "perforation", "--by", "intent", "-o", target).exit_code == 0
    heads = {"svg": b"<svg ", "png": b"\x89PNG", "pdf": b"%PDF"}
    assert target.read_bytes().startswith(heads[ending])


def test_forest_refuses_other_extensions(tmp_path: Path) -> None:
    result = run("forest", DEMO, "perforation", "-o", tmp_path / "f.bmp")
    assert result.exit_code == 1
    assert "must end in .png, .svg or .pdf" in result.output


def test_audit_prints_ascertainment_before_any_count() -> None:
    result = run("audit", UNIT, "--against", DEMO, "--for", "inside")
    assert result.exit_code == 0
    assert result.output.index("41 of 44 patients expected") < result.output.index("Perforation")


def test_audit_json_carries_sources() -> None:
    found = json.loads(run("audit", UNIT, "--against", DEMO, "--for", "inside", "--json").output)
    assert found["invented"] is True
    assert all(standing["sources"] for standing in found["standings"])


def test_audit_of_a_broken_unit_is_one_list(tmp_path: Path) -> None:
    broken = UNIT.read_text(encoding="utf-8").replace("attempted: 41", "attempted: 40")
    unit = tmp_path / "unit.yaml"
    unit.write_text(broken, encoding="utf-8")
    result = run("audit", unit, "--against", DEMO, "--for", "inside")
    assert result.exit_code == 1
    assert "the groups' attempted sum to 41, the flow says 40" in " ".join(result.output.split())


def test_trace_goes_forward_and_back() -> None:
    forward = " ".join(run("trace", DEMO, "1999-campion.perforation").output.split())
    assert "0 of 31" in forward
    assert "1999-campion.yaml, line" in forward
    assert "perforation/overall" in forward
    back = run("trace", DEMO, "perforation/intent=palliation").output
    assert "1999-campion.yaml, line" in back


def test_trace_says_why_a_count_is_not_pooled() -> None:
    said = " ".join(run("trace", DEMO, "2012-ragwort.perforation").output.split())
    assert "Pooled in: nothing" in said
    assert "Left out of perforation/overall: counted over" in said


def test_demo_writes_every_result(tmp_path: Path) -> None:
    result = run("demo", "-o", tmp_path)
    assert result.exit_code == 0
    names = sorted(path.name for path in tmp_path.iterdir() if path.is_file())
    assert names[0] == "1-check.txt"
    assert names[-1] == "manifest.json"
    for name in (*names[:-1], "outside/8-audit-outside.txt"):
        raw = (tmp_path / name).read_bytes()
        assert b"INVENTED" in raw or name.endswith(".png") or name == "1-check.txt"
