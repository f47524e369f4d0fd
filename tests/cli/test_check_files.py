"""A file that uses the words of a review is checked by itself, whatever kind it is."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from evsyn.cli import cli

DEMO = Path(__file__).parents[2] / "studies" / "demo"


def run(*words: object) -> Result:
    result = CliRunner().invoke(cli, ["check", *(str(word) for word in words)])
    assert result.exception is None or isinstance(result.exception, SystemExit)
    return result


def flat(result: Result) -> str:
    return " ".join(result.output.split())


def changed(place: Path, name: str, old: str, new: str) -> Path:
    text = (DEMO / name).read_text(encoding="utf-8")
    assert old in text
    file = place / name
    file.write_text(text.replace(old, new), encoding="utf-8")
    return file


@pytest.mark.parametrize(
    ("name", "kind", "said"),
    [
        ("claims.yaml", "claims", "10 sentences read"),
        ("guidelines.yaml", "guidelines", "5 statements of guidelines read"),
        ("unit-hollowmere.yaml", "unit", "the unit's figures read"),
    ],
)
def test_each_kind_of_file_is_known_by_what_it_holds(name, kind, said):
    result = run(DEMO / name, "--against", DEMO)
    assert result.exit_code == 0
    assert f"(INVENTED DATA): {said}; 0 faults" in flat(result)
    fields = json.loads(run(DEMO / name, "--against", DEMO, "--json").output)
    assert (fields["kind"], fields["studies"]) == (kind, None)


@pytest.mark.parametrize(
    ("name", "old", "new", "told"),
    [
        (
            "claims.yaml",
            "outcome: technical_success",
            "outcome: technical_succes",
            "not an outcome of the plan",
        ),
        ("claims.yaml", 'value: "6.6%"', 'value: "much"', "much"),
        ("guidelines.yaml", "status: current", "status: curent", "curent"),
        ("guidelines.yaml", "statements:", "statement:", "statement"),
    ],
)
def test_a_fault_is_told_with_its_line_and_ends_with_1(tmp_path, name, old, new, told):
    result = run(changed(tmp_path, name, old, new), "--against", DEMO)
    assert result.exit_code == 1
    assert "not usable" in flat(result)
    assert f"Fault: {name}, line " in flat(result)
    assert told in flat(result)


def test_claims_about_faulty_guidelines_tell_the_fault_of_the_guidelines(tmp_path):
    for file in DEMO.glob("*.yaml"):
        (tmp_path / file.name).write_bytes(file.read_bytes())
    changed(tmp_path, "guidelines.yaml", "statements:", "statement:")
    result = run(tmp_path / "claims.yaml", "--against", tmp_path)
    assert result.exit_code == 1
    assert "guidelines.yaml, line" in flat(result)


def test_without_a_review_it_is_asked_for():
    result = run(DEMO / "claims.yaml")
    assert result.exit_code == 1
    assert "--against FOLDER" in flat(result)
