"""BibTeX entries, taken apart by a library made for them.

Fields of an entry: Patashnik O. BibTeXing, 1988 (from memory); ``journaltitle``, ``date`` and
``eprint`` are those of its later dialect (from memory).
"""

import logging
import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from evsyn.extraction.references.latex import plain
from evsyn.extraction.references.names import ET_AL, initials, listed, person
from evsyn.extraction.references.raw import RawReference, one_line

#: A value put together from pieces, which the library leaves as it stands.
_PIECES = re.compile(r'\s*("[^"]*"|\{[^{}]*\}|\w+)\s*#\s*["{\w]')
#: The library says on the error stream what is told here as a finding.
_QUIET = logging.NullHandler()


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry, or where one begins that cannot be read.

    Parameters
    ----------
    line : int
        Line within the text, counted from 0.
    raw : RawReference or None
        The fields; ``None`` for an entry that cannot be read.
    """

    line: int
    raw: RawReference | None


def bibtex_entries(text: str) -> Iterator[Entry]:
    """Yield the entries of a text in order; definitions and comments are no entries."""
    from bibtexparser.library import Library
    from bibtexparser.middlewares.parsestack import default_parse_stack
    from bibtexparser.model import Entry as Parsed
    from bibtexparser.model import ParsingFailedBlock
    from bibtexparser.splitter import Splitter

    logging.getLogger("bibtexparser").addHandler(_QUIET)
    found = Splitter(text).split()
    for block in found.blocks:
        # Two entries under one key, or a field that stands twice, can be read all the same.
        entry = block.ignore_error_block if isinstance(block, ParsingFailedBlock) else block
        line = block.start_line or 0
        if isinstance(entry, Parsed):
            # One at a time, so that entries under one key do not get into each other's way.
            left_out = [field.key for field in entry.fields if _PIECES.match(str(field.value))]
            alone = Library([*found.strings, entry])
            for step in default_parse_stack():
                alone = step.transform(alone)
            yield Entry(line, _reference(_fields(alone.entries), left_out))
        elif entry is not block:
            yield Entry(line, None)


def _fields(entries: list[Any]) -> dict[str, list[str]]:
    """Return the values of each field; one that stands twice has two."""
    fields: dict[str, list[str]] = {}
    for entry in entries:
        for field in entry.fields:
            value = str(field.value).strip()
            if value:
                fields.setdefault(field.key.casefold(), []).append(value)
    return fields


def _reference(fields: dict[str, list[str]], left_out: list[str]) -> RawReference:
    remarks = [f"'{name}' is put together from pieces, and left out." for name in left_out]
    for name in left_out:
        fields.pop(name.casefold(), None)
    for name, values in fields.items():
        if name in _PRINTED and len(set(values)) > 1:
            remarks.append(f"The BibTeX record gives '{name}' twice; the first is kept.")

    def first(*names: str) -> str:
        return next((plain(fields[name][0]) for name in names if name in fields), "")

    def every(*names: str) -> tuple[str, ...]:
        return tuple(plain(value) for name in names for value in fields.get(name, ()))

    archive = first("eprinttype", "archiveprefix").casefold()
    return RawReference(
        authors=_authors(fields.get("author", [""])[0]),
        title=first("title"),
        journal=first("journal", "journaltitle", "booktitle"),
        year=first("year", "date"),
        volume=first("volume"),
        issue=first("number", "issue"),
        pages=first("pages"),
        article=first("eid", "article-number", "articleno"),
        dois=every("doi"),
        pmids=(*every("pmid"), *(every("eprint") if archive == "pubmed" else ())),
        addresses=every("url", "howpublished"),
        remarks=tuple(remarks),
    )


_PRINTED = frozenset({
    "author", "title", "journal", "journaltitle", "year", "date", "volume", "number", "pages",
    "doi", "pmid",
})  # fmt: skip


def _authors(text: str) -> tuple[str, ...]:
    from bibtexparser.middlewares.names import split_multiple_persons_names

    return listed(_author(one) for one in split_multiple_persons_names(text) if one.strip())


def _author(printed: str) -> str:
    """Return a person as ``Surname I``; a name in braces is that of a group."""
    from bibtexparser.middlewares.names import parse_single_name_into_parts

    text = printed.strip()
    if text.casefold() == "others":
        return ET_AL
    if text.startswith("{") and text.endswith("}") and _one_group(text):
        return one_line(plain(text))
    # Initials without stops, or a name in a script without capitals, is left as it stands.
    if "," not in text and text.split()[-1].isupper():
        return person(plain(text))
    parts = parse_single_name_into_parts(text, strict=False)
    von, last, jr, given = (
        one_line(plain(" ".join(words))) for words in (parts.von, parts.last, parts.jr, parts.first)
    )
    surname = " ".join(filter(None, (von, last)))
    if not surname:
        return one_line(plain(text))
    return " ".join(filter(None, (surname, initials(given), jr.rstrip("."))))


def _one_group(text: str) -> bool:
    """Return whether the first brace is closed by the last."""
    depth = 0
    for place, letter in enumerate(text):
        depth += (letter == "{") - (letter == "}")
        if depth == 0:
            return place == len(text) - 1
    return False
