"""Fill a folder with evsyn's own wheel and those of all it needs: ``python -m tests.install.fill``.

``--here`` fetches for this computer alone, without Windows and macOS.
"""

import subprocess
import sys
from pathlib import Path

from tests.install.gaps import gaps
from tests.install.metadata import needed, of_wheel
from tests.install.table import write_table
from tests.install.targets import PLATFORMS, PYTHONS, Platform

ROOT = Path(__file__).parent.parent.parent
FOLDER = ROOT / "wheels"


def fill(folder: Path, *, everywhere: bool) -> None:
    """Fetch wheels for this computer, and for every other kind of computer too."""
    folder.mkdir(exist_ok=True)
    for old in folder.glob("evsyn-*.whl"):
        old.unlink()
    _pip("wheel", "--no-deps", "--wheel-dir", folder, ROOT)
    (own,) = folder.glob("evsyn-*.whl")
    _pip("download", "--only-binary=:all:", "--dest", folder, own)
    for platform in PLATFORMS if everywhere else ():
        for python in PYTHONS:
            _fetch(folder, own, platform, python)
            if lacking := gaps(folder, platform, python):
                raise SystemExit(f"{platform.label}, Python {python}: no {', '.join(lacking)}")
    write_table(folder)


def _fetch(folder: Path, own: Path, platform: Platform, python: str) -> None:
    """Fetch what evsyn needs on another computer.

    pip asks the conditions of a library ("only on Windows") of the computer it runs on, so what is
    needed there and not here is asked for by name.
    """
    where = ("--only-binary=:all:", "--platform", platform.tag, "--python-version", python)
    asked: set[str] = set()
    more = {str(own)}
    while more:
        _pip("download", *where, "--dest", folder, *sorted(asked | more))
        asked |= more
        more = needed_only_there(folder, platform.environment(python)) - asked


def needed_only_there(folder: Path, environment: dict[str, str]) -> set[str]:
    """Return what the wheels of a folder need in an environment and not in this one."""
    wheels = [of_wheel(path) for path in folder.glob("*.whl")]
    here = {one.name for said in wheels for one in needed(said)}
    there = {one for said in wheels for one in needed(said, environment)}
    return {f"{one.name}{one.specifier}" for one in there if one.name not in here}


def _pip(*words: object) -> None:
    command = [sys.executable, "-m", "pip", "--quiet", "--disable-pip-version-check"]
    subprocess.run([*command, *map(str, words)], check=True)


if __name__ == "__main__":
    fill(FOLDER, everywhere="--here" not in sys.argv[1:])
