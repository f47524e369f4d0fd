"""``evsyn cite``: a pasted or saved record as the citation of an extract."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from evsyn.cli.options import refuse, say

if TYPE_CHECKING:
    from evsyn.extraction.review import Review


@click.command(
    "cite",
    short_help="Turn a pasted or saved reference into a citation.",
    epilog="Example: evsyn cite paper.ris --against studies/demo",
)
@click.argument("file", type=click.Path(path_type=Path, allow_dash=True))
@click.option(
    "--against",
    "folder",
    type=click.Path(path_type=Path),
    help="Folder of a review: say which of its studies is the same paper.",
)
def command(file: Path, folder: Path | None) -> None:
    """Print the records of FILE (RIS, PubMed or BibTeX) as they would stand in an extract.

    FILE may be - to read what is pasted. What a record does not say is left out and said in the
    note. A record that cannot be read is told by file and line: exit code 1.
    """
    from evsyn.extraction.references.read import read_references
    from evsyn.reporting.cite_text import cite_findings, cite_text
    from evsyn.terms import Severity
    from evsyn.wording.references import PASTE

    review = _review(folder) if folder is not None else None
    if str(file) == "-":
        if sys.stdin.isatty():
            click.echo(PASTE, err=True)
        name, raw = "pasted text", sys.stdin.buffer.read()
    elif file.is_dir():
        refuse(f"{file} is a folder. Give a file of records.")
    elif not file.is_file():
        refuse(f"{file}: there is no such file. Check the path.")
    else:
        name, raw = file.name, file.read_bytes()
    read = read_references(raw, name)
    if read.citations:
        say(cite_text(read, review, sys.stdout.encoding or "utf-8"))
    if read.findings:
        click.echo(cite_findings(name, len(read.citations), read.findings), err=True)
    if any(finding.severity is Severity.FAULT for finding in read.findings):
        raise SystemExit(1)


def _review(folder: Path) -> "Review":
    """Return a review for its papers alone: faults of an extract do not hide the others."""
    from evsyn.extraction.load import UnreadableError, read_review
    from evsyn.reporting.findings import findings_text
    from evsyn.wording.references import some_unread

    try:
        review = read_review(folder)
    except UnreadableError as error:
        refuse(findings_text(str(folder), None, error.findings))
    if review.faults and review.studies:
        click.echo(some_unread(str(folder)), err=True)
    return review
