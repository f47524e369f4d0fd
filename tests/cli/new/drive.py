"""Run the command line as a person would: with answers typed, or with options alone."""

from click.testing import CliRunner, Result

from evsyn.cli import cli


def run(*words: object, answers: str | None = None) -> Result:
    """Run a command; with answers it asks, else it does not."""
    more = ["--no-ask"] if answers is None else ["--ask"]
    result = CliRunner().invoke(cli, ["new", *map(str, words), *more], input=answers)
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    return result


def checked(*words: object) -> Result:
    """Run ``evsyn check``."""
    return CliRunner().invoke(cli, ["check", *map(str, words)])


def said(result: Result) -> str:
    return " ".join(result.output.split())
