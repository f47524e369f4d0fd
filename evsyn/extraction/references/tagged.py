"""RIS and PubMed records: lines that begin with a tag, read by a library made for them.

RIS: "RIS format specifications" of its publisher, tags of two letters, two spaces, a hyphen and
a space, from ``TY`` to ``ER``. Which programs write ``A1`` or ``AU``, ``T1`` or ``TI``, ``JO``,
``JF``, ``JA`` or ``T2``, ``PY`` or ``Y1``: the same list, and common practice (from memory).
PubMed: NLM, "MEDLINE/PubMed data element (field) descriptions", tags of up to four letters.
"""

import re
from collections.abc import Iterable
from functools import cache
from textwrap import dedent
from typing import Any, ClassVar

from evsyn.extraction.references.names import listed, person
from evsyn.extraction.references.raw import RawReference

Tags = dict[str, list[str]]

_RIS_LINE = re.compile(r"\s*([A-Z][A-Z0-9](?=\s)|PMID)\s{0,2}-(?:\s(.*))?$")
_PUBMED_LINE = re.compile(r"([A-Z][A-Z0-9]{1,3}) {0,3}-(?:\s(.*))?$")
#: PubMed breaks a long line, and indents what follows to where the text begins.
_CONTINUED = re.compile(r"\n {6}(?=\S)")

_RIS_TAGS = (
    "TY", "AU", "A1", "TI", "T1", "CT", "BT", "JO", "JF", "JA", "J1", "J2", "T2", "PY", "Y1",
    "DA", "VL", "IS", "SP", "EP", "C7", "DO", "DI", "M3", "AN", "DB", "DP", "PMID", "UR", "LK",
    "N1",
)  # fmt: skip
_PUBMED_TAGS = (
    "PMID", "AU", "FAU", "CN", "TI", "BTI", "TA", "JT", "DP", "VI", "IP", "PG", "LID", "AID",
    "PT",
)  # fmt: skip
_DOI_NOTE = re.compile(r"(doi[:\s]+|https?://(dx\.)?doi\.org/)?10\.[0-9]{4,9}/", re.IGNORECASE)
_PUBMED_DATABASE = re.compile(r"pubmed|medline|\bpmid\b|\bnlm\b", re.IGNORECASE)


def ris_reference(text: str) -> RawReference:
    """Return the fields of one RIS record, with or without its last line."""
    tags = _read(_unbroken(text), "TY", _RIS_TAGS)
    first = _first_of(tags)
    numbers = [one for one in tags["AN"] if _is_pubmed((one, *tags["DB"], *tags["DP"]))]
    remarks = []
    if tags["AN"] and not numbers and not tags["PMID"]:
        remarks.append(f"Accession number {tags['AN'][0][:40]}, of a database not named PubMed.")
    # Both tags may hold the same authors; within one, two persons may be written alike.
    authors = [*tags["A1"], *(one for one in tags["AU"] if one not in tags["A1"])]
    pages, last = first("SP"), first("EP")
    return RawReference(
        authors=listed(person(one) for text in authors for one in text.split(";")),
        title=first("TI", "T1", "CT", "BT"),
        journal=first("JA", "J2", "J1", "JO", "JF", "T2"),
        year=first("PY", "Y1", "DA"),
        volume=first("VL"),
        issue=first("IS"),
        pages=pages if "-" in pages or last == pages else f"{pages}-{last}",
        article=first("C7"),
        # Some write the DOI among the notes; other notes may name that of another paper.
        dois=(*tags["DO"], *tags["DI"], *filter(_DOI_NOTE.match, (*tags["M3"], *tags["N1"]))),
        pmids=(*tags["PMID"], *numbers),
        addresses=(*tags["UR"], *tags["LK"]),
        remarks=tuple(remarks),
    )


def pubmed_reference(text: str) -> RawReference:
    """Return the fields of one PubMed record."""
    tags = _read(_CONTINUED.sub(" ", dedent(text)), "PMID", _PUBMED_TAGS)
    first = _first_of(tags)
    retracted = any(one.casefold() == "retracted publication" for one in tags["PT"])
    places = (*tags["LID"], *tags["AID"])
    return RawReference(
        authors=listed((*map(person, tags["AU"] or tags["FAU"]), *tags["CN"])),
        title=first("TI", "BTI"),
        journal=first("TA", "JT"),
        year=first("DP"),
        volume=first("VI"),
        issue=first("IP"),
        pages=first("PG"),
        dois=tuple(one for one in places if one.endswith("[doi]")),
        pmids=tuple(one for one in tags["PMID"] if one.strip()),
        remarks=("Marked in PubMed as retracted.",) if retracted else (),
    )


def _is_pubmed(texts: Iterable[str]) -> bool:
    return any(_PUBMED_DATABASE.search(text) for text in texts)


def _first_of(tags: Tags) -> Any:
    def first(*names: str) -> str:
        return next((text for name in names for text in tags[name] if text.strip()), "")

    return first


def _unbroken(text: str) -> str:
    """Join each line of a RIS record that has no tag of its own to the line before it."""
    lines: list[str] = []
    for line in dedent(text).split("\n"):
        if _RIS_LINE.match(line) or not lines:
            lines.append(line)
        elif line.strip():
            lines[-1] += f" {line.strip()}"
    return "\n".join(lines)


def _read(text: str, start: str, known: Iterable[str]) -> Tags:
    """Return every value of the known tags, in order; a tag that is not there has none."""
    empty: Tags = {tag: [] for tag in known}
    body = text.lstrip()
    # The library wants a first line, and hands a record over at its last.
    first = "" if body.startswith(start) else f"{start:4}- \n"
    records = _parser(start).parse(f"{first}{body}\nER  - ")
    found = records[0] if records else {}
    # The first line stands alone, all others in lists.
    return empty | {tag: [one] if isinstance(one, str) else one for tag, one in found.items()}


@cache
def _parser(start: str) -> Any:
    """Return the library's parser, with every tag under its own name and every value kept."""
    import rispy

    line_form, known = (_RIS_LINE, _RIS_TAGS) if start == "TY" else (_PUBMED_LINE, _PUBMED_TAGS)

    class Tagged(rispy.RisParser):  # type: ignore[misc]
        START_TAG = start
        DEFAULT_MAPPING: ClassVar = {tag: tag for tag in known}
        DEFAULT_LIST_TAGS: ClassVar = list(known)
        DEFAULT_DELIMITER_MAPPING: ClassVar[dict[str, str]] = {}

        def parse_line(self, line: str) -> tuple[str | None, str]:
            found = line_form.match(line)
            return (found[1], (found[2] or "").strip()) if found else (None, line.strip())

    return Tagged(skip_unknown_tags=True)
