"""``evsyn check``: read a review, or a file that uses its words, and say what is wrong."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from evsyn.cli.options import json_option, readable_review, refuse, say

if TYPE_CHECKING:
    from evsyn.extraction.load_claims import FileKind
    from evsyn.extraction.review import Review
    from evsyn.terms import Finding


@click.command(
    "check",
    short_help="Read a review, or a file beside it, and say what is wrong or doubtful.",
    epilog="Example: evsyn check studies/demo",
)
@click.argument("path", type=click.Path(path_type=Path))
@click.option(
    "--against",
    "review",
    type=click.Path(path_type=Path),
    help="For a file: folder of the review whose words it uses.",
)
@click.option("--strict", is_flag=True, help="Open doubts also end with exit code 1.")
@json_option
def command(path: Path, review: Path | None, strict: bool, as_json: bool) -> None:
    """Read PATH, and report every fault, doubt and note together.

    PATH is a review folder, or with --against a unit file, claims or guidelines.

    A fault cannot be read or cannot be true: exit code 1, and nothing is pooled or compared. A
    doubt is counted on every output until it is answered in the file, and then still shown. A
    note asks for nothing.
    """
    from evsyn.reporting.findings import findings_json, findings_text
    from evsyn.reporting.json_text import json_text
    from evsyn.terms import Severity
    from evsyn.wording.checked import which_review

    if review is None and path.is_file():
        refuse(which_review(str(path)))
    kind, number, read = "review", None, ""
    if review is None:
        number, findings, invented = _review(path)
    else:
        kind, read, findings, invented = _file(path, readable_review(review))
    if as_json:
        say(json_text(findings_json(str(path), number, findings, kind=kind)))
    else:
        say(findings_text(str(path), number, findings, invented=invented, read=read))
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


def _file(path: Path, review: "Review") -> "tuple[str, str, tuple[Finding, ...], bool]":
    """Return what kind of file it is, what was read of it, the findings, and if it is made up."""
    from evsyn.extraction.load import UnreadableError
    from evsyn.extraction.load_claims import kind_of

    kind = kind_of(path)
    try:
        return str(kind), *_read(path, kind, review)
    except UnreadableError as error:
        return str(kind), "", error.findings, False


def _read(
    path: Path, kind: "FileKind", review: "Review"
) -> "tuple[str, tuple[Finding, ...], bool]":
    from evsyn.extraction.load import read_unit
    from evsyn.extraction.load_claims import (
        FileKind,
        check_guidelines,
        read_claims,
        read_guidelines,
    )
    from evsyn.wording.checked import UNIT_READ, claims_read, guidelines_read

    plan = review.plan
    match kind:
        case FileKind.CLAIMS:
            claims = read_claims(path, plan, read_guidelines(review.folder, plan))
            held = claims.claims
            return claims_read(len(held.claims)), claims.findings, held.invented
        case FileKind.GUIDELINES:
            found = check_guidelines(path, plan)
            said = guidelines_read(len(found.guidelines.statements))
            return said, found.findings, found.guidelines.invented
        case FileKind.UNIT:
            unit = read_unit(path, plan)
            return UNIT_READ, unit.findings, unit.unit.invented
