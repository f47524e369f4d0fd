"""Take the citation of a paper from its record: from a file, or pasted."""

import sys
from pathlib import Path
from textwrap import fill
from typing import TYPE_CHECKING

import click

from evsyn.cli.new.asking import Given
from evsyn.cli.new.kept import KeptAsker
from evsyn.cli.new.paper import citation_of
from evsyn.cli.options import WIDTH, refuse

if TYPE_CHECKING:
    from evsyn.extraction.references.read import ReadCitation
    from evsyn.extraction.review import Review


def citation_from(asker: KeptAsker, review: "Review", file: Path | None, given: Given) -> Given:
    """Return the citation of a new paper; stop if the review holds the paper already.

    Parameters
    ----------
    asker : KeptAsker
        Where answers come from.
    review : Review
        The review the paper is for.
    file : pathlib.Path or None
        A file with its record.
    given : dict
        What the options hold; what a record says of the same takes their place.
    """
    from evsyn.extraction.references.same import duplicates
    from evsyn.wording import adding as say
    from evsyn.wording.citation import citation_text

    record = _record(asker, file)
    if record is None:
        return citation_of(asker, given)
    for same in duplicates([record], review):
        asker.done()
        refuse(say.IN_ALREADY.format(study=same.study, reason=same.reason))
    cited = record.citation.model_dump(exclude_none=True)
    if asker.asks and not asker.is_quiet:
        cited_as = say.CITED.format(citation=citation_text(record.citation))
        click.echo(f"\n{fill(cited_as, WIDTH)}\n")
    return {**cited, **_typed(given)}


def _typed(given: Given) -> Given:
    """Return what options say of the citation itself."""
    from evsyn.extraction.study import Citation

    fields = Citation.model_fields
    return {key: value for key, value in given.items() if key in fields and value is not None}


def _record(asker: KeptAsker, file: Path | None) -> "ReadCitation | None":
    """Return the one record of a file, of what is pasted, or of what was kept."""
    from evsyn.wording import adding as say

    kept = asker.again(say.REFERENCE)
    if file is not None:
        text = _text_of(file)
        if kept is not None and kept != text:
            refuse(say.another_waits(str(asker.place)))
        record, trouble = _one(text, file.name)
        if record is None:
            refuse(trouble)
        if kept is None and asker.asks:
            asker.keep(say.REFERENCE, text)
        asker.fixed = 1
        return record
    if kept is not None:
        return _one(kept, say.REFERENCE)[0] if kept else None
    if not asker.asks:
        return None
    asker.tell(["", *say.PASTE])
    asker.flush()
    while True:
        text = _pasted(asker)
        if not text.strip():
            asker.keep(say.REFERENCE, "")
            return None
        record, trouble = _one(text, say.REFERENCE)
        if record is not None:
            asker.keep(say.REFERENCE, text)
            return record
        asker.tell([fill(trouble, WIDTH), say.PASTE_AGAIN])


def _one(text: str, name: str) -> "tuple[ReadCitation | None, str]":
    """Return the record of a text, or why there is not one."""
    from evsyn.extraction.references.read import read_references
    from evsyn.wording import adding as say

    if not text.strip():
        return None, ""
    read = read_references(text, name)
    if len(read.citations) == 1:
        return read.citations[0], ""
    if read.citations:
        return None, say.ONE_RECORD.format(number=len(read.citations))
    first = read.findings[0]
    return None, f"{first.message[0].upper()}{first.message[1:]}. {first.cure}"


def _text_of(file: Path) -> str:
    from evsyn.extraction.case_log.encoding import text_of
    from evsyn.extraction.case_log.refused import RefusedError

    if not file.is_file():
        refuse(f"{file}: there is no such file. Check the path.")
    try:
        return text_of(file.read_bytes())
    except RefusedError:
        refuse(f"{file} is not text that can be read. Save the record again as RIS or BibTeX.")


def _pasted(asker: KeptAsker) -> str:
    from evsyn.wording.adding import END

    lines: list[str] = []
    for line in iter(sys.stdin.readline, ""):
        if not "".join(lines).strip():
            try:
                asker.hear(line)
            except ValueError as reason:
                asker.tell([fill(str(reason), WIDTH)])
                continue
        if line.strip() == END:
            return "".join(lines)
        lines.append(line)
    raise click.Abort
