"""``evsyn check``: read a review and say what is wrong, what is doubtful, and what to do."""

from pathlib import Path

import click

from evsyn.cli.options import json_option, review_argument, say


@click.command(
    "check",
    short_help="Read a review and say what is wrong or doubtful.",
    epilog="Example: evsyn check studies/demo",
)
@review_argument
@click.option("--strict", is_flag=True, help="Open doubts also end with exit code 1.")
@json_option
def command(review: Path, strict: bool, as_json: bool) -> None:
    """Read the folder REVIEW and report every fault, doubt and note together.

    A fault cannot be read or cannot be true: exit code 1, and nothing is pooled. A doubt is
    pooled and counted on every output until it is answered in the file, and then still shown. A
    note asks for nothing.
    """
    from evsyn.extraction.load import UnreadableError, read_review
    from evsyn.reporting.findings import findings_json, findings_text
    from evsyn.reporting.json_text import json_text
    from evsyn.terms import Severity

    try:
        read = read_review(review)
        number, findings, invented = len(read.studies), read.findings, read.invented
    except UnreadableError as error:
        number, findings, invented = None, error.findings, False
    if as_json:
        say(json_text(findings_json(str(review), number, findings)))
    else:
        say(findings_text(str(review), number, findings, invented=invented))
    faulty = any(finding.severity is Severity.FAULT for finding in findings)
    if faulty or (strict and any(finding.is_open for finding in findings)):
        raise SystemExit(1)
