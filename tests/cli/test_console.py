"""Every verb on the consoles and in the folders that hospital computers have."""

import os
import shutil
import stat
from pathlib import Path

import pytest

from evsyn.cli import VERBS
from tests.cli.every_verb import AUTHORS, EVERY_VERB, Typed, hospital_review, run_verb

#: Variables of the environment, and the alphabet the console then has.
CONSOLES = {
    "western Windows": ({"PYTHONIOENCODING": "cp1252"}, "cp1252"),
    "plain letters": ({"PYTHONIOENCODING": "ascii"}, "ascii"),
    "locale C": ({"PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0", "LC_ALL": "C"}, "ascii"),
}
TEXTS = {".txt", ".json", ".svg", ".html"}
FAST = {"check {review}", "pool {review} perforation"}


def whole_cross() -> list[object]:
    """Return the whole cross, of which all but a thin slice is slow."""
    cross = [(console, typed) for console in CONSOLES for typed in EVERY_VERB]
    fast = [console in ("plain letters", "locale C") and t.words in FAST for console, t in cross]
    return [
        pytest.param(*pair, id=f"{pair[0]}: {pair[1].words}", marks=[] if f else pytest.mark.slow)
        for pair, f in zip(cross, fast, strict=True)
    ]


def test_every_verb_is_in_the_table() -> None:
    assert {typed.verb for typed in EVERY_VERB} == set(VERBS)


@pytest.fixture
def place(tmp_path: Path) -> Path:
    folder = tmp_path / "Prüfung 月 Ελλάς"
    hospital_review(folder / "eine Sammlung")
    return folder


def listing(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


@pytest.mark.parametrize(("console", "typed"), whole_cross())
def test_a_verb_runs_on_any_console(console: str, typed: Typed, place: Path) -> None:
    env, encoding = CONSOLES[console]
    review, into = place / "eine Sammlung", place / "aus gabe"
    if typed.verb == "stale":
        run_verb(["report", str(review), "--as", "pocket", "-o", f"{into}/report"], env, place)
    before = listing(review)
    done = run_verb(typed.words_in(review, into), env, place)
    said = done.stderr.decode(encoding)
    assert done.returncode == 0, said
    assert "Traceback" not in said
    assert "Warning" not in said
    printed = done.stdout.decode(encoding)
    if typed.words in ("pool {review} perforation", "trace {review} perforation"):
        shown = {"ascii": "Zizkova", "cp1252": "Žižková", "utf-8": "Žižková"}
        assert shown[encoding] in printed
    if not typed.writes_beside:
        assert listing(review) == before
    for path in into.rglob("*"):
        if path.suffix in TEXTS:
            path.read_bytes().decode("utf-8")


def test_what_is_written_is_utf_8_on_any_console(place: Path) -> None:
    env, _ = CONSOLES["locale C"]
    words = ["pool", str(place / "eine Sammlung"), "perforation", "-o", str(place / "答.txt")]
    done = run_verb(words, env, place)
    assert done.returncode == 0, done.stderr
    text = (place / "答.txt").read_bytes().decode("utf-8")
    assert AUTHORS.partition(" ")[0] in text
    assert "“invented” review – β" in text


def test_a_folder_that_is_not_there_is_told_on_any_console(tmp_path: Path) -> None:
    said = {
        "cp1252": "Größe – ? fehlt",
        "ascii": "Grosse - ? fehlt",
        "utf-8": "Größe – 月 fehlt",
    }
    for env, encoding in CONSOLES.values():
        done = run_verb(["check", "Größe – 月 fehlt"], env, tmp_path)
        assert done.returncode == 1
        assert said[encoding] in done.stdout.decode(encoding)
        assert b"Traceback" not in done.stderr


def _rights_of_a_user() -> tuple[str, ...]:
    """Return the command before another by which a folder's rights hold for root too."""
    if os.name != "posix":
        pytest.skip("the rights of a folder are set differently on Windows")
    if os.getuid() != 0:
        return ()
    if shutil.which("setpriv") is None:
        pytest.skip("root may write anywhere, and setpriv, which takes that away, is not here")
    return ("setpriv", "--bounding-set=-dac_override", "--inh-caps=-dac_override")


@pytest.mark.slow
@pytest.mark.parametrize("typed", EVERY_VERB, ids=lambda typed: typed.words)
def test_without_a_home_a_folder_that_cannot_be_written_to_can_be_read(
    typed: Typed, place: Path
) -> None:
    review, into = place / "eine Sammlung", place / "out"
    before_it = _rights_of_a_user()
    # As `env -i`: no HOME, and no word on the console.
    env: dict[str, str] = {}
    if typed.verb == "stale":
        run_verb(["report", str(review), "--as", "pocket", "-o", f"{into}/report"], env, place)
    for path in (*review.iterdir(), review):
        path.chmod(path.stat().st_mode & ~(stat.S_IWUSR | stat.S_IWGRP | stat.S_IWOTH))
    done = run_verb(typed.words_in(review, into), env, place, before=before_it)
    review.chmod(0o755)
    said = done.stderr.decode()
    assert "Traceback" not in said
    assert "Warning" not in said
    assert done.returncode == (1 if typed.writes_beside else 0), said
    if typed.writes_beside:
        assert "denied" in said
