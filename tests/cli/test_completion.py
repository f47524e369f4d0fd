"""The shell finishes verbs, options and the names of the review on the line."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from click.shell_completion import ShellComplete
from click.testing import CliRunner

from evsyn.cli import VERBS, cli
from evsyn.wording.completion import STARTS_WITH
from tests.extraction.builders import TinyReview

#: A line, and what the shell is to put in the place of its last word.
LINES = {
    "evsyn rep": "report",
    "evsyn pool {review} per": "perforation",
    "evsyn pool {review} --by in": "intent",
    "evsyn trace {review} 2001": "2001-reed",
}


def offered(*words: str) -> list[str]:
    *before, begun = words
    asked = ShellComplete(cli, {}, "evsyn", "_EVSYN_COMPLETE").get_completions(before, begun)
    return [item.value for item in asked]


@pytest.fixture
def review(tmp_path: Path) -> str:
    TinyReview(tmp_path)
    return str(tmp_path)


def test_verbs_and_options() -> None:
    assert offered("") == list(VERBS)
    assert "--against" in offered("audit", "--a")


def test_names_of_the_review_on_the_line(review: str) -> None:
    assert offered("pool", review, "") == ["perforation", "success"]
    assert offered("pool", review, "--by", "") == ["intent", "era"]
    assert offered("forest", review, "s") == ["success"]
    assert offered("strip", "unit.yaml", "--against", review, "--outcome", "p") == ["perforation"]
    assert offered("trace", review, "20") == ["2001-reed", "2010-sedge"]


def test_no_review_offers_no_name(tmp_path: Path) -> None:
    assert offered("pool", str(tmp_path / "none"), "") == []
    (tmp_path / "review.yaml").write_text("format: [", encoding="utf-8")
    assert offered("pool", str(tmp_path), "") == []


@pytest.mark.parametrize("shell", STARTS_WITH)
def test_the_lines_say_how_they_are_switched_on(shell: str) -> None:
    printed = CliRunner().invoke(cli, ["completion", shell]).output
    assert f"evsyn completion {shell} >> {STARTS_WITH[shell]}" in printed
    assert f"_EVSYN_COMPLETE={shell}_complete" in printed


#: How each shell tells what it would put there: by its own word for it, or by calling what it has
#: been told to call.
ASKED = {
    "bash": (
        'source "$1"; line=($2); COMP_WORDS=("${line[@]}"); COMP_CWORD=$((${#line[@]} - 1)); '
        '_evsyn_completion evsyn; printf "%s\\n" "${COMPREPLY[@]}"'
    ),
    "fish": "source $argv[1]; complete -C $argv[2]",
}


@pytest.mark.parametrize("shell", ASKED)
def test_a_real_shell_finishes_the_word(shell: str, review: str, tmp_path: Path) -> None:
    if shutil.which(shell) is None:
        pytest.skip(f"{shell} is not on this machine")
    lines = tmp_path / f"lines.{shell}"
    lines.write_text(CliRunner().invoke(cli, ["completion", shell]).output, encoding="utf-8")
    program = tmp_path / "bin" / "evsyn"
    program.parent.mkdir()
    program.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m evsyn "$@"\n', encoding="utf-8")
    program.chmod(0o755)
    env = os.environ | {"PATH": f"{program.parent}:{os.environ['PATH']}", "HOME": str(tmp_path)}
    for line, expected in LINES.items():
        typed = line.format(review=review)
        words = ["-c", ASKED[shell], *(["bash"] if shell == "bash" else []), str(lines), typed]
        done = subprocess.run(
            [shell, *words], env=env, capture_output=True, encoding="utf-8", check=False
        )
        assert expected in done.stdout.split(), (line, done.stdout, done.stderr)
