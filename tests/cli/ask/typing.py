"""Type a question on the command line."""

from pathlib import Path

from click.testing import CliRunner

from evsyn.cli import cli
from evsyn.cli.ask import QUESTIONS

STUDIES = Path(__file__).parents[3] / "studies"
DEMO, PUBLISHED = str(STUDIES / "demo"), str(STUDIES / "published")


def typed(*words: str, code: int = 0) -> str:
    """Return what is said; a question is typed behind ``ask``."""
    before = ["ask"] if words[0] in QUESTIONS else []
    result = CliRunner().invoke(cli, [*before, *words])
    assert result.exit_code == code, result.output
    assert result.exception is None or isinstance(result.exception, SystemExit)
    return result.output
