"""BibTeX entries, taken apart by a library made for them.

Fields of an entry: Patashnik O. BibTeXing, 1988 (from memory); ``journaltitle``, ``date`` and
``eprint`` are those of its later dialect (from memory).
"""

import logging
import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from evsyn.extraction.references.bibtex_names import authors_in, is_one_group
from evsyn.extraction.references.latex import plain
from evsyn.extraction.references.raw import RawReference

_NUMBER = re.compile(r"[0-9]+")
_NOT_ONE = (
    "is left out: it is a word that is not defined, pieces put together with #, or lacks a comma "
    "after it."
)
_USED = frozenset({
    "author", "title", "subtitle", "journal", "journaltitle", "booktitle", "year", "date",
    "volume", "number", "issue", "pages", "eid", "article-number", "articleno", "doi", "pmid",
    "eprint", "url",
})  # fmt: skip
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
    defined = frozenset(string.key.casefold() for string in found.strings)
    for block in found.blocks:
        # Two entries under one key, or a field that stands twice, can be read all the same.
        entry = block.ignore_error_block if isinstance(block, ParsingFailedBlock) else block
        line = block.start_line or 0
        if isinstance(entry, Parsed):
            # One at a time, so that entries under one key do not get into each other's way.
            left_out = [
                field.key.casefold() for field in entry.fields if not _is_one(field.value, defined)
            ]
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
    remarks = [f"'{name}' {_NOT_ONE}" for name in left_out if name in _USED]
    fields = {name: values for name, values in fields.items() if name not in left_out}
    for name, values in fields.items():
        if name in _USED and len(set(values)) > 1:
            remarks.append(f"The BibTeX record gives '{name}' twice; the first is kept.")

    def first(*names: str) -> str:
        return next((plain(fields[name][0]) for name in names if name in fields), "")

    def every(*names: str) -> tuple[str, ...]:
        return tuple(plain(value) for name in names for value in fields.get(name, ()))

    archive = first("eprinttype", "archiveprefix").casefold()
    return RawReference(
        authors=authors_in(fields.get("author", [""])[0]),
        title=": ".join(filter(None, (first("title"), first("subtitle")))),
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


def _is_one(value: str, defined: frozenset[str]) -> bool:
    """Return whether a value is a number, a defined word, or one text in braces or quotes."""
    text = value.strip()
    whole = is_one_group(text) or is_one_group(text, '"', '"')
    return whole or bool(_NUMBER.fullmatch(text)) or text.casefold() in defined
