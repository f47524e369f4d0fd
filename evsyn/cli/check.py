"""``evsyn check``: read a review, or a unit's figures, and say what is wrong or doubtful."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from evsyn.cli.options import json_option, readable_review, refuse, say

if TYPE_CHECKING:
    from evsyn.terms import Finding


@click.command(
    "check",
    short_help="Read a review or a unit file and say what is wrong or doubtful.",
    epilog="Example: evsyn check studies/demo",
)
@click.argument("path", type=click.Path(path_type=Path))
@click.option(
    "--against",
    "review",
    type=click.Path(path_type=Path),
    help="For a unit file: folder of the review whose words it uses.",
)
@click.option("--strict", is_flag=True, help="Open doubts also end with exit code 1.")
@json_option
def command(path: Path, review: Path | None, strict: bool, as_json: bool) -> None:
    """Read PATH, a review folder or a unit file, and report every fault, doubt and note together.

    A fault cannot be read or cannot be true: exit code 1, and nothing is pooled or compared. A
    doubt is counted on every output until it is answered in the file, and then still shown. A
    note asks for nothing.
    """
    from evsyn.reporting.findings import findings_json, findings_text
    from evsyn.reporting.json_text import json_text
    from evsyn.terms import Severity

    if review is None and path.is_file():
        refuse(f"{path} is a file. Of a unit file, say the review: --against FOLDER.")
    number, findings, invented = _review(path) if review is None else _unit(path, review)
    if as_json:
        say(json_text(findings_json(str(path), number, findings)))
    else:
        is_unit = review is not None
        say(findings_text(str(path), number, findings, invented=invented, of_unit=is_unit))
    faulty = any(finding.severity is Severity.FAULT for finding in findings)
    if faulty or (strict and any(finding.is_open for finding in findings)):
        raise SystemExit(1)


def _review(folder: Path) -> "tuple[int | None, tuple[Finding, ...], bool]":
    from evsyn.extraction.load import UnreadableError, read_review
    from evsyn.extraction.schema.folder import schema_notes

    try:
        read = read_review(folder)
    except UnreadableError as error:
        return None, error.findings, False
    findings = (*read.findings, *schema_notes(folder, read.plan))
    return len(read.studies), findings, read.invented


def _unit(path: Path, folder: Path) -> "tuple[int | None, tuple[Finding, ...], bool]":
    from evsyn.extraction.load import UnreadableError, read_unit

    plan = readable_review(folder).plan
    try:
        checked = read_unit(path, plan)
    except UnreadableError as error:
        return None, error.findings, False
    return 1, checked.findings, checked.unit.invented
