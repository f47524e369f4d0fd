"""A folder of wheels is all that a computer without a network needs."""

import hashlib
import os
import re
import shutil
import subprocess
import sys
import venv
import zipfile
from pathlib import Path

import pytest

from tests.install.fill import fill, needed_only_there
from tests.install.gaps import gaps
from tests.install.metadata import licence, of_wheel
from tests.install.table import NAME
from tests.install.targets import PLATFORMS, PYTHONS, Platform

WINDOWS, APPLE, _ = PLATFORMS


def wheel(folder: Path, name: str, *lines: str, tag: str = "py3-none-any") -> Path:
    """Write a wheel that holds nothing but what it says of itself."""
    path = folder / f"{name}-1.0-{tag}.whl"
    said = "\n".join(("Metadata-Version: 2.4", f"Name: {name}", "Version: 1.0", *lines))
    with zipfile.ZipFile(path, "w") as made:
        made.writestr(f"{name}-1.0.dist-info/METADATA", f"{said}\n")
    return path


def test_what_is_needed_on_another_computer_alone_is_asked_for(tmp_path: Path) -> None:
    condition = "sys_platform == 'plan9' or sys_platform == 'win32'"
    wheel(tmp_path, "evsyn", f"Requires-Dist: alder>=1; {condition}", "Requires-Dist: birch")
    there = WINDOWS.environment("3.12") | {"sys_platform": "plan9"}
    assert needed_only_there(tmp_path, there) == {"alder>=1"}


def test_a_library_without_a_wheel_that_fits_is_a_gap(tmp_path: Path) -> None:
    only_windows = "Requires-Dist: alder>=1; sys_platform == 'win32'"
    wheel(tmp_path, "evsyn", only_windows, "Requires-Dist: birch>=2", "Requires-Dist: cedar")
    wheel(tmp_path, "birch")
    wheel(tmp_path, "cedar", tag="cp312-cp312-win_amd64")
    assert gaps(tmp_path, WINDOWS, "3.12") == ["alder>=1", "birch>=2"]
    assert gaps(tmp_path, WINDOWS, "3.13") == ["alder>=1", "birch>=2", "cedar"]
    assert gaps(tmp_path, APPLE, "3.12") == ["birch>=2", "cedar"]


@pytest.mark.parametrize(
    ("lines", "named"),
    [
        (["License-Expression: MIT", "License: other"], "MIT"),
        (["License: BSD-3-Clause"], "BSD-3-Clause"),
        (["Classifier: License :: OSI Approved :: BSD License"], "BSD License"),
        (["License: " + 70 * "words "], "named inside the library"),
    ],
)
def test_a_licence_is_what_the_library_says(lines: list[str], named: str, tmp_path: Path) -> None:
    assert licence(of_wheel(wheel(tmp_path, "alder", *lines))) == named


@pytest.fixture(scope="module")
def wheels(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheels for this computer."""
    folder = tmp_path_factory.mktemp("wheels")
    asked = [sys.executable, "-m", "pip", "download", "--no-deps", "hatchling"]
    if subprocess.run(asked, cwd=folder, capture_output=True, check=False).returncode:
        pytest.skip("no index of libraries can be reached from here")
    fill(folder / "on a stick", everywhere=False)
    return folder / "on a stick"


#: Nothing of this machine's own settings: no index, no other folder of wheels, no HOME.
BARE = {"PIP_CONFIG_FILE": os.devnull, "PIP_DISABLE_PIP_VERSION_CHECK": "1", "PATH": os.defpath}


def offline() -> list[str]:
    """Return the words before a command that take the network away, where the system has them."""
    words = ["unshare", "--net", "--map-root-user"]
    if shutil.which(words[0]) is None:
        return []
    is_refused = subprocess.run([*words, "true"], capture_output=True, check=False).returncode
    return [] if is_refused else words


def run(words: list[object], env: dict[str, str], cwd: Path) -> str:
    done = subprocess.run(
        [*offline(), *map(str, words)],
        env=env,
        cwd=cwd,
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.mark.slow
def test_into_an_environment_of_its_own(wheels: Path, tmp_path: Path) -> None:
    venv.create(tmp_path / "evsyn here", with_pip=True)
    folder = tmp_path / "evsyn here" / ("Scripts" if os.name == "nt" else "bin")
    install = ["-m", "pip", "install", "--no-index", "--find-links", wheels, "evsyn"]
    run([folder / "python", *install], BARE, tmp_path)
    run([folder / "evsyn", "demo", "-o", tmp_path / "demo"], BARE, tmp_path)
    assert (tmp_path / "demo" / "4-slide.png").is_file()


@pytest.mark.slow
def test_for_a_user_who_may_not_install_for_all(wheels: Path, tmp_path: Path) -> None:
    python = Path(sys.base_prefix) / ("python.exe" if os.name == "nt" else "bin/python3")
    env = BARE | {"PYTHONUSERBASE": str(tmp_path / "user base")}
    marked = Path(os.__file__).parent / "EXTERNALLY-MANAGED"
    if marked.is_file():
        pytest.skip("this system keeps its Python to itself, also for a user")
    install = ["-m", "pip", "install", "--user", "--no-index", "--find-links", wheels, "evsyn"]
    run([python, *install, "--no-warn-script-location"], env, tmp_path)
    run([python, "-m", "evsyn", "demo", "-o", tmp_path / "demo"], env, tmp_path)
    assert (tmp_path / "demo" / "4-slide.png").is_file()
    run([python, "-m", "pip", "uninstall", "--yes", "evsyn"], env, tmp_path)
    assert not list((tmp_path / "user base").rglob("evsyn*"))


@pytest.mark.slow
def test_the_list_beside_them_has_every_file_and_a_licence(wheels: Path) -> None:
    listed = (wheels / NAME).read_text(encoding="utf-8")
    for path in wheels.glob("*.whl"):
        assert f"{hashlib.sha256(path.read_bytes()).hexdigest()}  {path.name}\n" in listed
        name = re.escape(of_wheel(path)["Name"])
        assert re.search(rf"^{name} +\S+ +\w", listed, re.M), name


@pytest.mark.slow
@pytest.mark.parametrize("python", PYTHONS)
@pytest.mark.parametrize("platform", PLATFORMS, ids=lambda platform: platform.tag)
def test_libraries_have_wheels_for_hospital_computers(
    platform: Platform, python: str, wheels: Path, tmp_path: Path
) -> None:
    # pip chooses them as it would, and fetches only what it needs to know of them.
    where = ("--only-binary=:all:", "--platform", platform.tag, "--python-version", python)
    (own,) = wheels.glob("evsyn-*.whl")
    words = ["install", "--quiet", "--dry-run", "--ignore-installed", "--target", tmp_path]
    done = subprocess.run(
        [sys.executable, "-m", "pip", *map(str, words), *where, str(own)],
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    assert done.returncode == 0, done.stderr
