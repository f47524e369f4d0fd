"""A published pooling at the terminal: verdict, variant, doubts, and refusals."""

import json
from pathlib import Path

from click.testing import CliRunner, Result

from evsyn.cli import cli
from tests.reproduction.builders import INVENTED, PUBLISHED


def run(*words: object) -> Result:
    result = CliRunner().invoke(cli, ["reproduce", *map(str, words)])
    assert result.exception is None or isinstance(result.exception, SystemExit)
    return result


def flat(result: Result) -> str:
    return " ".join(result.output.split())


def test_a_pooling_that_is_reproduced() -> None:
    result = run(PUBLISHED / "sun2019_vomiting_6h_rr_zero_cell.yaml")
    assert result.exit_code == 0
    said = flat(result)
    assert "Reproduced: all 22 printed numbers." in said
    assert "Q taken about the Mantel-Haenszel estimate" in said
    assert "half added to studies with an empty cell, inside the sums too" in said
    assert "read as: random effects, Mantel-Haenszel. That agrees." in said
    assert "3 of 3 printed weights as printed; 9 of 9 printed study numbers as printed." in said
    assert max(map(len, result.output.splitlines())) <= 80


def test_a_pooling_that_is_not() -> None:
    said = flat(run(PUBLISHED / "wjg2016_oesstent_migration_random.yaml"))
    assert "Not reproducible: none of 177 variants" in said
    assert "Not as printed: Total, pooled value; Total, lower limit; Total, upper limit." in said


def test_exceptions_are_named_and_their_reason_is_doubted() -> None:
    said = flat(run(PUBLISHED / "peng2019_remission_rr_mh_fixed.yaml"))
    assert "Reproduced except 2 of 34 printed numbers." in said
    assert "Not as printed: Egger's test, t; Egger's test, P." in said
    assert "[egger-unlogged]" in said


def test_fields_for_programs() -> None:
    found = json.loads(run(PUBLISHED / "zegeye2019_nonadherence_proportion_dl_subgroups_egger.yaml",
                           "--json").output)  # fmt: skip
    assert found["verdict"] == "reproduced"
    (best,) = found["best"]
    assert best["variant"] == "random/dersimonian_laird/ordinary/se_by_1.96"
    assert best["all_at_once_within_rounding"] is True
    by = {tuple(check["number"]): check for check in best["checks"]}
    upper = by[("group", "SNNPR", "high")]
    assert upper["printed"] == "26.17"
    assert upper["low"] < 26.165 < upper["high"]
    assert upper["source"]["line"] > 0


def test_invented_poolings_say_so(tmp_path: Path) -> None:
    path = tmp_path / "own.yaml"
    path.write_text(INVENTED, encoding="utf-8")
    assert run(path).output.startswith("INVENTED DATA")


def test_faults_are_listed_with_their_lines(tmp_path: Path) -> None:
    path = tmp_path / "own.yaml"
    path.write_text(INVENTED.replace("events: 4,", "events: 94,"), encoding="utf-8")
    result = run(path)
    assert result.exit_code == 1
    assert "own.yaml, line 7" in result.output
    assert "94 events among 40" in result.output
    assert run(tmp_path / "none.yaml").exit_code == 1
