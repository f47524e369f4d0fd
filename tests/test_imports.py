"""What each entry point may load: starting must cost little more than Python itself."""

import subprocess
import sys
from pathlib import Path

import pytest

from tests.extraction.builders import TinyReview

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


#: Lines of a unit's flow are held together by the optimiser, which pooling never needs.
UNIT_HEAVY = {"scipy.stats", "pandas", "matplotlib", "statsmodels"}


def test_auditing_a_unit_with_flow_lines_needs_the_optimiser_and_no_more() -> None:
    words = ("audit", "studies/demo/unit-hollowmere.yaml", "--against", "studies/demo")
    modules = loaded_by(run(*words, "--for", "inside"))
    assert not modules & UNIT_HEAVY
    assert "scipy.optimize" in modules


def test_auditing_a_unit_without_flow_lines_stays_light(tmp_path: Path) -> None:
    TinyReview(tmp_path).unit("flow: {attempted: 20, placed: 19}\n", "")
    words = ("audit", str(tmp_path / "unit-glade.yaml"), "--against", str(tmp_path))
    modules = loaded_by(run(*words, "--for", "inside"))
    assert "evsyn.audit.verdict" in modules
    assert not modules & (UNIT_HEAVY | {"scipy.optimize"})


def test_drawing_needs_no_pyplot() -> None:
    code = run("forest", "studies/demo", "perforation", "-o", "/dev/null/never.svg")
    assert "matplotlib.pyplot" not in loaded_by(code)
