"""The order of the rooms, and the size and names of the files in them.

A room imports only from itself and from rooms to its left. That way a reader can learn the
program from left to right, and a change never reaches a room he has already read.
"""

import ast
import re
import shutil
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
PACKAGE = ROOT / "evsyn"
ROOMS = (
    "terms", "extraction", "cells", "effects", "pooling", "reproduction", "audit", "calibration",
    "claims", "wording", "figures", "reporting", "cli",
)  # fmt: skip
MODULES = sorted(PACKAGE.rglob("*.py"))
FILES = [*MODULES, *sorted((ROOT / "tests").rglob("*.py"))]
#: Libraries that would make pooling slow to start or tie it to more than arrays.
ARRAY_ROOMS = ("effects", "pooling")
ARRAY_LIBRARIES = {"numpy", "scipy.special"}
VAGUE = {"utils", "util", "helpers", "helper", "common", "misc", "core", "tools", "stuff"}


def name_of(path):
    return str(path.relative_to(ROOT))


def imported(tree, path):
    """Yield each module a file imports, at its top or inside a function, as a dotted name."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = node.module or ""
            if node.level:
                inside = path.relative_to(ROOT).with_suffix("").parts[: -node.level]
                base = ".".join((*inside, base)).strip(".")
            if base == "evsyn":
                yield from (f"evsyn.{alias.name}" for alias in node.names)
            else:
                yield base


def modules_of(path):
    return set(imported(ast.parse(path.read_text(encoding="utf-8")), path))


def room_of(path):
    parts = path.relative_to(PACKAGE).parts
    return parts[0] if len(parts) > 1 else None


def test_every_room_is_in_the_order():
    folders = {path.name for path in PACKAGE.iterdir() if (path / "__init__.py").is_file()}
    assert folders <= set(ROOMS)


@pytest.mark.parametrize("path", [path for path in MODULES if room_of(path)], ids=name_of)
def test_arrows_point_left(path):
    here = ROOMS.index(room_of(path))
    rooms = {name.split(".")[1] for name in modules_of(path) if name.startswith("evsyn.")} & set(
        ROOMS
    )
    assert not [room for room in rooms if ROOMS.index(room) > here]


def test_an_arrow_to_the_right_would_be_seen():
    text = (
        "def f():\n    from evsyn.cli import main\n    from ..pooling import x\n"
        "    import evsyn.audit.y\n    from evsyn import wording"
    )
    path = PACKAGE / "cells" / "table.py"
    assert set(imported(ast.parse(text), path)) == {
        "evsyn.cli", "evsyn.pooling", "evsyn.audit.y", "evsyn.wording",
    }  # fmt: skip


@pytest.mark.parametrize(
    "path", [path for path in MODULES if room_of(path) in ARRAY_ROOMS], ids=name_of
)
def test_effects_and_pooling_need_arrays_only(path):
    heavy = {"pandas", "matplotlib", "statsmodels", "mpmath", "click", "pydantic", "yaml", "rich"}
    for name in modules_of(path):
        assert name.split(".")[0] not in heavy
        if name.startswith("scipy"):
            assert name in ARRAY_LIBRARIES | {"scipy"}


@pytest.mark.parametrize("path", FILES, ids=name_of)
def test_files_are_short_and_named_for_what_they_hold(path):
    if path.is_relative_to(PACKAGE):
        assert len(path.read_text(encoding="utf-8").splitlines()) <= 300
    assert path.stem not in VAGUE
    assert path.parent.name not in VAGUE


def test_no_tracked_file_names_a_path_of_one_machine():
    if shutil.which("git") is None or not (ROOT / ".git").exists():
        pytest.skip("not a clone")
    listed = subprocess.run(
        ["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, text=True, check=True
    )
    homes = "|".join(("home", "root", "Users", "work", "tmp", "mnt"))
    machine = re.compile(rf"(?<![\w.:/~-])/(?:{homes})/\w|[A-Za-z]:\\+Users")
    told = []
    for name in filter(None, listed.stdout.split("\0")):
        path = ROOT / name
        if not path.is_file():
            continue
        text = path.read_bytes().decode("utf-8", errors="ignore")
        told += [f"{name}: {found.group()}" for found in machine.finditer(text)]
    assert told == []
