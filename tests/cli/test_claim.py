"""Sentences weighed as a speaker would have it: verdicts, refusals, and nothing told outside."""

import json
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from evsyn.cli import cli
from tests.claims.builders import UNIT as SLOE

ROOT = Path(__file__).parent.parent.parent
DEMO = ROOT / "studies" / "demo"
CLAIMS = DEMO / "claims.yaml"
UNIT = DEMO / "unit-hollowmere.yaml"


def run(*words: object) -> Result:
    result = CliRunner().invoke(cli, [str(word) for word in words])
    assert result.exception is None or isinstance(result.exception, SystemExit)
    assert "Traceback" not in result.output
    return result


def flat(result: Result) -> str:
    return " ".join(result.output.split())


def test_the_page_marks_tells_and_counts() -> None:
    result = run("claim", CLAIMS, "--against", DEMO)
    assert result.exit_code == 0
    lines = result.output.splitlines()
    assert lines[0].startswith("INVENTED DATA: ")
    assert "10 sentences: " in flat(result)
    assert result.output.count("\nSay instead: ") == 8
    assert result.output.count("\nSay it so: ") == 2
    assert len(re.findall(r"in this review, as searched", flat(result))) >= 10
    assert all(len(line) <= 80 for line in lines if "http" not in line)


def test_a_unit_needs_an_audience_and_an_audience_a_unit() -> None:
    for words in (("--unit", UNIT), ("--for", "inside")):
        result = run("claim", CLAIMS, "--against", DEMO, *words)
        assert result.exit_code == 1
        assert "--for inside|outside" in result.output


def test_inside_is_marked() -> None:
    result = run("claim", CLAIMS, "--against", DEMO, "--unit", UNIT, "--for", "inside")
    assert result.output.startswith("INSIDE THE UNIT: official-sensitive")
    assert "Ours, bridge to surgery: perforation in none of 14" in flat(result)


OWN = """\
format: 1
title: A talk (invented)
invented: true
claims:
  - {claim: only-three, says: "We had 3 perforations in 27.", about: unit, outcome: perforation,
     scope: {intent: palliation}, relation: equals, value: "3 of 27"}
  - {claim: ours, says: "Ours is low.", about: unit, outcome: perforation, relation: below,
     value: "50%"}
"""


@pytest.fixture
def own(tmp_path: Path) -> Path:
    path = tmp_path / "claims.yaml"
    path.write_text(OWN, encoding="utf-8")
    return path


@pytest.mark.parametrize("form", [(), ("--json",)])
def test_outside_nothing_is_told_of_the_unit(tmp_path: Path, own: Path, form: tuple[str]) -> None:
    """Play the attacker: whatever the unit counted, and whatever was claimed, the page is one."""
    pages = set()
    for events in (0, 1, 7, 30, 60):
        unit = tmp_path / "unit.yaml"
        counted = SLOE.replace("events: 0, total: 60", f"events: {events}, total: 60")
        unit.write_text(counted, encoding="utf-8")
        claims = tmp_path / "own.yaml"
        claims.write_text(OWN.replace("3", str(events % 27)), encoding="utf-8")
        words = ("claim", claims, "--against", DEMO, "--unit", unit, "--for", "outside")
        result = run(*words, *form)
        assert result.exit_code == 0, result.output
        pages.add(result.output)
    (page,) = pages
    assert "withheld outside" in page
    assert "perforations in" not in page
    assert "only-three" not in page


def test_released_counts_are_weighed_outside_with_the_release(tmp_path: Path, own: Path) -> None:
    unit = tmp_path / "unit.yaml"
    release = "release: {approved_by: lead, on: 2026-08-03, basis: a talk, levels: true}\n"
    unit.write_text(UNIT.read_text(encoding="utf-8") + release, encoding="utf-8")
    result = run("claim", own, "--against", DEMO, "--unit", unit, "--for", "outside")
    assert "released by lead" in flat(result)
    assert "3 of 27 is the unit's 3 of 27." in flat(result)
    assert "official-sensitive" not in result.output


def test_json_holds_numbers_with_their_places() -> None:
    words = ("claim", CLAIMS, "--against", DEMO, "--unit", UNIT, "--for", "inside", "--json")
    found = json.loads(run(*words).output)
    assert found["for"] == "inside"
    assert found["invented"] is True
    claims = {one["claim"]: one for one in found["claims"]}
    assert claims["below-ten"]["verdict"] == "borne_out"
    files = {place["file"] for place in claims["below-ten"]["sources"]}
    assert claims["below-ten"]["numbers"]["series"]["k"] == len(files)
    for one in found["claims"]:
        told = one["verdict"] != "nothing_held" and one["about"] != "guideline"
        assert bool(one["sources"]) or not told
        assert all(place["line"] > 0 for place in one["sources"])
    assert [one["kind"] for one in claims["later-is-better"]["overreach"]] == ["cause", "cause"]


def test_faults_are_told_in_one_list(tmp_path: Path) -> None:
    path = tmp_path / "claims.yaml"
    text = CLAIMS.read_text(encoding="utf-8")
    text = text.replace("outcome: perforation", "outcome: perforatoin", 1)
    text = text.replace('value: "6.6%"', 'value: "six"').replace("than: evidence", "then: evidence")
    path.write_text(text, encoding="utf-8")
    result = run("claim", path, "--against", DEMO)
    assert result.exit_code == 1
    # An unknown field keeps the file from being read at all, and is told first.
    assert "Did you mean 'than'?" in flat(result)
    path.write_text(text.replace("then:", "than:"), encoding="utf-8")
    said = flat(run("claim", path, "--against", DEMO))
    assert "Did you mean 'perforation'?" in said
    assert "'value' is 'six'" in said


def test_a_sentence_with_another_number_is_remarked(tmp_path: Path) -> None:
    path = tmp_path / "claims.yaml"
    text = CLAIMS.read_text(encoding="utf-8").replace("fewer than 10% of", "fewer than 8% of")
    path.write_text(text, encoding="utf-8")
    result = run("claim", path, "--against", DEMO)
    assert result.exit_code == 0
    assert "1 remark on the sentences Doubt, claims.yaml, line 14: the sentence says 8%" in flat(
        result
    )


@pytest.mark.parametrize("path", [UNIT, DEMO / "review.yaml", DEMO / "1996-alder.yaml", DEMO])
def test_another_kind_of_file_is_named(path: Path) -> None:
    result = run("claim", path, "--against", DEMO)
    assert result.exit_code == 1
    assert "Give the path of a claims file." in flat(result)


def test_faulty_guidelines_stop_it(tmp_path: Path) -> None:
    demo = Path(shutil.copytree(DEMO, tmp_path / "demo"))
    guidelines = demo / "guidelines.yaml"
    text = guidelines.read_text(encoding="utf-8")
    guidelines.write_text(text.replace("    from_memory: true\n", ""), encoding="utf-8")
    result = run("claim", CLAIMS, "--against", demo)
    assert result.exit_code == 1
    assert "'from_memory' is not true" in flat(result)


def test_weighing_stays_light() -> None:
    words = ["claim", str(CLAIMS), "--against", str(DEMO)]
    program = (
        f"import sys, evsyn.cli\nsys.argv = {['evsyn', *words]!r}\n"
        "try:\n    evsyn.cli.main()\nexcept SystemExit:\n    pass\n"
        "print('\\n'.join(sys.modules), file=sys.stderr)"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True, cwd=ROOT
    )
    heavy = {"scipy.stats", "scipy.optimize", "pandas", "matplotlib", "statsmodels"}
    assert not set(done.stderr.split()) & heavy
