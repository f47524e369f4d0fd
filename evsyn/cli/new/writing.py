"""Write a new file, never over one that exists, and only where nothing keeps it from being read."""

import os
import shlex
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from evsyn.cli.options import refuse

if TYPE_CHECKING:
    from evsyn.terms import Finding


def refuse_existing(path: Path) -> None:
    """Stop if there is a file, or anything else, of that name."""
    from evsyn.wording.new_questions import EXISTS

    if path.exists() or path.is_symlink():
        refuse(EXISTS.format(path=path))


def free_name(folder: Path) -> Callable[[str], str]:
    """Return a reader of names of which a folder holds no file yet."""

    def read(written: str) -> str:
        from evsyn.extraction.starting import answers

        named = answers.name(written)
        path = folder / f"{named}.yaml"
        if path.exists() or path.is_symlink():
            raise ValueError(f"{path} is there already; give another name")
        return named

    return read


def file_text(
    path: Path,
    review: Path,
    kind: str,
    record: Mapping[str, Any],
    comments: Mapping[tuple[str | int, ...], str],
) -> str:
    """Return the text of a new file, whose first line leads an editor to its schema."""
    from evsyn.extraction.schema.folder import first_line
    from evsyn.extraction.writing.text import yaml_text

    try:
        place = Path(os.path.relpath(review, path.parent)).as_posix()
    except ValueError:
        # On another drive there is no way from one to the other.
        place = review.resolve().as_posix()
    return f"{first_line(kind, place)}\n{yaml_text(record, comments)}"


def said_of(findings: "Iterable[Finding]", name: str) -> "list[Finding]":
    """Return the findings about one file."""
    return [one for one in findings if one.source.file == name]


def tell_open(findings: "Iterable[Finding]", name: str) -> None:
    """Say what is doubtful about the new file."""
    for one in said_of(findings, name):
        click.echo(f"{str(one.severity).capitalize()}: {one.source}")
        click.echo(f"  {one.message[0].upper()}{one.message[1:]}. {one.cure}")


def write_new(path: Path, text: str) -> None:
    """Write a whole file that does not exist yet."""
    from evsyn.reporting.files import write_whole

    refuse_existing(path)
    write_whole(path, text)
    click.echo(f"Written: {path}")


def tell_next(*commands: Iterable[object]) -> None:
    """Say which commands come next."""
    from evsyn.wording.new_questions import next_steps

    click.echo(next_steps([shlex.join(["evsyn", *map(str, words)]) for words in commands]))
