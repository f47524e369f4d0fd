"""No network, nothing written but where one said, and no other program: what IT is promised.

Python tells a listener of every file it opens, folder it makes, socket it asks for and program it
starts. All verbs run under such a listener.
"""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.cli.every_verb import EVERY_VERB, hospital_review

LISTENER = """
import json, os, sys

heard = []
writing = os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC | os.O_APPEND
network = ("socket.", "urllib.", "http.", "ftplib.", "smtplib.", "imaplib.", "poplib.")
changes = {"os.mkdir", "os.rename", "os.link", "os.symlink", "os.truncate", "shutil.rmtree"}
removals = {"os.remove", "os.rmdir"}
programs = ("subprocess.", "os.system", "os.exec", "os.spawn", "os.posix_spawn", "os.startfile")

def listen(event, args):
    if event == "open" and isinstance(args[0], (str, bytes)) and args[2] & writing:
        heard.append(("written", os.fsdecode(args[0])))
    elif event in removals and args[1] == -1:  # else inside a folder that is removed as a whole
        heard.append(("written", os.fsdecode(args[0])))
    elif event in changes:
        count = 2 if event in ("os.rename", "os.link") else 1
        heard.extend(("written", os.fsdecode(one)) for one in args[:count])
    elif event.startswith(network):
        heard.append(("network", event))
    elif event.startswith(programs):
        heard.append(("program", os.path.basename(str(args[0]))))

sys.addaudithook(listen)
from evsyn.cli import main

for words in json.loads(sys.argv[1]):
    sys.argv = ["evsyn", *words]
    try:
        main()
    except SystemExit as end:
        heard.append(("ended", end.code or 0))
print(json.dumps(heard), file=sys.__stderr__)
"""
#: On Linux and macOS the drawing library asks the system which typefaces there are, once.
LISTS_TYPEFACES = {"fc-list", "system_profiler"}


@pytest.fixture(scope="module")
def place(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("leaves")
    for name in ("home", "temporary"):
        (folder / name).mkdir()
    hospital_review(folder / "review")
    hospital_review(folder / "written to")
    return folder


@pytest.fixture(scope="module")
def heard(place: Path) -> list[tuple[str, str | int]]:
    """What was heard while all verbs ran, with a home and temporary files of their own."""
    lines = [
        typed.words_in(place / ("written to" if typed.writes_beside else "review"), place / "out")
        for typed in EVERY_VERB
    ]
    env = {
        "HOME": str(place / "home"),
        "USERPROFILE": str(place / "home"),
        "TMPDIR": str(place / "temporary"),
        "TEMP": str(place / "temporary"),
        "PATH": os.environ["PATH"],
        # An installed program is compiled by pip; the one in a checkout would be here.
        "PYTHONDONTWRITEBYTECODE": "1",
    }
    done = subprocess.run(
        [sys.executable, "-c", LISTENER, json.dumps(lines)],
        cwd=place,
        env={**{n: v for n, v in os.environ.items() if n == "SYSTEMROOT"}, **env},
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return [(kind, what) for kind, what in json.loads(done.stderr.splitlines()[-1])]


def test_every_verb_ended_well(heard: list[tuple[str, str | int]]) -> None:
    assert [what for kind, what in heard if kind == "ended"] == [0] * len(EVERY_VERB)


def test_no_verb_asks_for_the_network(heard: list[tuple[str, str | int]]) -> None:
    assert not [what for kind, what in heard if kind == "network"]


def test_no_other_program_is_started(heard: list[tuple[str, str | int]]) -> None:
    assert {what for kind, what in heard if kind == "program"} <= LISTS_TYPEFACES


def test_what_is_written_lies_where_one_said(
    heard: list[tuple[str, str | int]], place: Path
) -> None:
    allowed = [place / "out", place / "temporary", place / "written to", Path(os.devnull)]

    def is_allowed(written: Path) -> bool:
        return any(written == one or one in written.parents for one in allowed)

    written = {place / what for kind, what in heard if kind == "written" and isinstance(what, str)}
    assert len(written) > len(EVERY_VERB)
    assert not {path for path in written if not is_allowed(path)}


def test_nothing_else_is_left(heard: list[tuple[str, str | int]], place: Path) -> None:
    assert heard
    assert not list((place / "home").rglob("*"))
    names = {path.name for path in place.iterdir()}
    assert names == {"home", "temporary", "review", "written to", "out"}


def test_a_listener_would_hear_them() -> None:
    program = LISTENER.partition("from evsyn")[0] + (
        "import socket, subprocess\n"
        "socket.socket().close()\n"
        "open(os.devnull, 'ab').close()\n"
        "subprocess.run([sys.executable, '-c', ''])\n"
        "print(json.dumps(heard))"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, encoding="utf-8", check=True
    )
    assert {kind for kind, _ in json.loads(done.stdout)} == {"network", "written", "program"}
