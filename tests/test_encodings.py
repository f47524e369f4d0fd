"""Every file is opened with its encoding named, since consoles of hospitals have many.

The style check demands it; here it is held that it does, of each way a file is opened.
"""

import json
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent


@pytest.mark.parametrize(
    "opening",
    [
        'open("x")',
        'open("x", "w")',
        'Path("x").open()',
        'Path("x").read_text()',
        'Path("x").write_text("")',
        "tempfile.NamedTemporaryFile('w')",
    ],
)
def test_the_style_check_asks_for_the_encoding(opening: str) -> None:
    program = f"import tempfile\nfrom pathlib import Path\n\nprint(tempfile, Path)\n{opening}\n"
    assert "PLW1514" in _told(program)


def test_it_lets_an_open_with_its_encoding_pass() -> None:
    program = 'from pathlib import Path\n\nPath("x").read_text(encoding="utf-8")\n'
    assert "PLW1514" not in _told(program)


def _told(program: str) -> set[str]:
    words = ("check", "--output-format", "json", "--stdin-filename", "evsyn/cli/invented.py", "-")
    done = subprocess.run(
        [sys.executable, "-m", "ruff", *words],
        input=program,
        capture_output=True,
        encoding="utf-8",
        cwd=ROOT,
        check=False,
    )
    return {one["code"] for one in json.loads(done.stdout)}


def test_no_file_is_let_off() -> None:
    here = Path(__file__)
    files = [*(ROOT / "evsyn").rglob("*.py"), *(ROOT / "tests").rglob("*.py")]
    let_off = [path for path in files if "PLW1514" in path.read_text(encoding="utf-8")]
    assert let_off == [here]
