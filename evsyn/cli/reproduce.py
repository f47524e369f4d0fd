"""``evsyn reproduce``: a published pooling, redone from its own rows."""

from pathlib import Path

import click

from evsyn.cli.options import json_option, refuse, say


@click.command(
    "reproduce",
    short_help="Find the method that gives a published pooling.",
    epilog="How to type the file: docs/how-to/check-a-published-pooling.md",
)
@click.argument("file", type=click.Path(path_type=Path))
@json_option
def command(file: Path, as_json: bool) -> None:
    """Try every known variant of method on the rows typed in FILE.

    Each printed number is compared at its own decimals. The pooling is reproduced under one or more
    variants, reproduced except for some numbers, or not reproducible; doubts about the print itself
    are told beside it.
    """
    from evsyn.extraction.load import UnreadableError
    from evsyn.reporting.findings import findings_text
    from evsyn.reporting.reproduce_json import reproduction_json
    from evsyn.reporting.reproduce_text import reproduction_text
    from evsyn.reproduction.load import read_pooling
    from evsyn.reproduction.verdict import reproduce

    try:
        checked = read_pooling(file)
    except UnreadableError as error:
        refuse(findings_text(str(file), None, error.findings))
    found = reproduce(checked)
    say(reproduction_json(found) if as_json else reproduction_text(found))
