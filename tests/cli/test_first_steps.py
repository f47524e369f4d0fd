"""What is said to someone who types no verb, or a wrong one."""

import subprocess
import sys
from pathlib import Path

import click
import pytest
from click.testing import CliRunner, Result

from evsyn.cli import VERBS, cli
from evsyn.wording.first_steps import FIRST_STEPS

DEMO = Path(__file__).parent.parent.parent / "studies" / "demo"


def run(*words: str) -> Result:
    return CliRunner().invoke(cli, list(words), prog_name="evsyn")


def test_evsyn_alone_says_five_things_and_is_no_error() -> None:
    result = run()
    assert result.exit_code == 0
    assert len(FIRST_STEPS) == 5
    for what, words in FIRST_STEPS:
        assert f"{what}:\n    evsyn {words}\n" in result.output
    assert "docs/README.md" in result.output
    assert max(map(len, result.output.splitlines())) <= 80


@pytest.mark.parametrize("words", [words for _, words in FIRST_STEPS])
def test_each_of_the_five_can_be_typed(words: str, tmp_path: Path) -> None:
    unit = str(DEMO / "unit-hollowmere.yaml")
    places = {"FOLDER": str(DEMO), "OUTCOME": "perforation", "UNIT.yaml": unit}
    verb, *rest = (places.get(word, word) for word in words.split(" "))
    command = cli.get_command(click.Context(cli), verb)
    assert command is not None
    command.make_context(verb, rest)


def test_started_as_a_module_it_says_how_to_go_on_so(tmp_path: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "evsyn"],
        capture_output=True,
        encoding="utf-8",
        cwd=tmp_path,
        check=True,
    )
    assert "    python -m evsyn demo\n" in done.stdout


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("poll", "pool"), ("chek", "check"), ("reprot", "report"), ("Audit", "audit")],
)
def test_a_mistyped_verb_offers_the_nearest(typed: str, meant: str) -> None:
    result = run(typed, "x")
    assert result.exit_code == 2
    assert f"There is no verb '{typed}'. Did you mean '{meant}'?" in result.output


def test_a_word_like_no_verb_lists_them() -> None:
    result = run("xyzzy")
    assert result.exit_code == 2
    assert ", ".join(VERBS) in result.output


def test_a_mistyped_option_offers_the_nearest() -> None:
    result = run("pool", "x", "--bye", "intent")
    assert result.exit_code == 2
    assert "--by" in result.output.partition("Did you mean")[2]


def test_a_folder_without_a_verb_is_told_how_to_be_checked() -> None:
    result = run(str(DEMO))
    assert result.exit_code == 2
    assert f"evsyn check {DEMO}" in " ".join(result.output.split())
