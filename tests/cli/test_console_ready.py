"""What is made ready before a verb runs: letters in and out, and a folder for typefaces."""

import os
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest

from evsyn.cli.console import ready_drawing

SHOW = "from evsyn.cli.console import ready_console; ready_console(); print(ascii(input()))"
PRINT = "import click; from evsyn.cli.console import ready_console; ready_console(); "


def python(program: str, encoding: str, typed: bytes = b"") -> bytes:
    env = {"PYTHONIOENCODING": encoding, "PATH": os.defpath}
    env |= {name: os.environ[name] for name in ("SYSTEMROOT",) if name in os.environ}
    return subprocess.run(
        [sys.executable, "-c", program], input=typed, env=env, stdout=subprocess.PIPE, check=True
    ).stdout


@pytest.mark.parametrize(
    ("encoding", "typed", "read"),
    [
        ("ascii", "Žižka".encode(), "Žižka"),
        ("cp1252", "Žižka".encode("cp1252"), "Žižka"),
        # 0x81 is no letter in this alphabet.
        ("cp1252", b"Reed\x81", "Reed\ufffd"),
        ("utf-8", b"Reed\xff", "Reed\ufffd"),
    ],
)
def test_what_is_typed_is_read(encoding: str, typed: bytes, read: str) -> None:
    assert python(SHOW, encoding, typed + b"\n").split() == [ascii(read).encode()]


@pytest.mark.parametrize("printing", ["print", "click.echo"])
@pytest.mark.parametrize(
    ("encoding", "shown"), [("ascii", b"Zizka 1-2 ?"), ("cp1252", b"\x8ei\x9eka 1\x962 ?")]
)
def test_what_is_printed_is_shown_as_near_as_can_be(
    printing: str, encoding: str, shown: bytes
) -> None:
    # By Python and by click, which has streams of its own for a console of plain letters.
    assert python(f"{PRINT}{printing}('Žižka 1–2 月')", encoding).strip() == shown


def test_a_name_kept_as_bytes_is_shown_by_what_they_spell() -> None:
    printed = python(f"{PRINT}print('Gr\\udcc3\\udcb6\\udcc3\\udc9fe \\udcff')", "ascii")
    assert printed.strip() == b"Grosse ?"


@pytest.fixture
def temporary(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.delenv("MPLCONFIGDIR", raising=False)
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    return tmp_path


def test_typefaces_are_listed_among_the_temporary_files(temporary: Path) -> None:
    ready_drawing()
    assert Path(os.environ.pop("MPLCONFIGDIR")).parent == temporary
    assert not list(temporary.iterdir())


def test_a_folder_one_has_named_stays(temporary: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("MPLCONFIGDIR", "mine")
    ready_drawing()
    assert os.environ["MPLCONFIGDIR"] == "mine"


def test_what_lies_there_and_is_no_folder_of_ones_own_is_not_used(temporary: Path) -> None:
    ready_drawing()
    Path(os.environ.pop("MPLCONFIGDIR")).write_text("another's", encoding="utf-8")
    ready_drawing()
    assert "MPLCONFIGDIR" not in os.environ
