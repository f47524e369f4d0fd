"""What each entry point may load: starting must cost little more than Python itself."""

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
HEAVY = {"numpy", "scipy", "pandas", "matplotlib", "statsmodels", "pydantic", "yaml", "rich"}


def loaded_by(code: str) -> set[str]:
    """Return the modules a fresh interpreter has loaded after running ``code``."""
    program = f"{code}\nimport sys\nprint('\\n'.join(sys.modules), file=sys.stderr)"
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True, cwd=ROOT
    )
    return set(done.stderr.split())


def run(*words: str) -> str:
    return (
        "import sys, evsyn.cli\n"
        f"sys.argv = {['evsyn', *words]!r}\n"
        "try:\n    evsyn.cli.main()\nexcept SystemExit:\n    pass"
    )


@pytest.mark.parametrize("words", [("--help",), ("pool", "--help"), ("--version",)])
def test_help_loads_click_alone(words: tuple[str, ...]) -> None:
    assert not loaded_by(run(*words)) & HEAVY


def test_importing_the_package_loads_nothing() -> None:
    assert not loaded_by("import evsyn") & (HEAVY | {"click"})


def test_pooling_a_review_stays_light() -> None:
    modules = loaded_by(run("pool", "studies/demo", "perforation"))
    heavy = {"scipy.stats", "scipy.optimize", "pandas", "matplotlib", "statsmodels"}
    assert not modules & heavy
    assert "scipy.special" in modules


def test_auditing_a_unit_stays_light() -> None:
    unit = "studies/demo/unit-hollowmere.yaml"
    words = ("audit", unit, "--against", "studies/demo", "--for", "inside")
    heavy = {"scipy.stats", "scipy.optimize", "pandas", "matplotlib", "statsmodels"}
    assert not loaded_by(run(*words)) & heavy


def test_drawing_needs_no_pyplot() -> None:
    code = run("forest", "studies/demo", "perforation", "-o", "/dev/null/never.svg")
    assert "matplotlib.pyplot" not in loaded_by(code)
