"""Cut a text into records, each with its layout and its first line."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from evsyn.extraction.references.raw import Layout

_RIS_START = re.compile(r"\s*TY\s{1,2}-")
_RIS_END = re.compile(r"\s*ER\s{1,2}-")
_PUBMED_START = re.compile(r"\s*PMID ?-")
_BIBTEX_START = re.compile(r"\s*@\s*[A-Za-z]+\s*[{(]")
_TAG = re.compile(r"\s{0,3}([A-Z][A-Z0-9]{1,3}) {0,3}- ")

#: Tags that one of the two layouts has and the other has not. AU, TI, AB, IS and others mean
#: something in both.
_RIS_ONLY = frozenset({
    "T1", "T2", "A1", "A2", "A3", "JO", "JF", "JA", "J1", "J2", "PY", "Y1", "VL", "SP", "EP",
    "DO", "UR", "KW", "N1", "N2", "ER", "DB", "M1", "M3", "C7",
})  # fmt: skip
_PUBMED_ONLY = frozenset({
    "FAU", "DP", "TA", "JT", "VI", "IP", "PG", "LID", "AID", "SO", "MH", "PT", "OWN", "STAT",
    "EDAT", "MHDA", "CRDT", "PHST", "DEP", "JID", "PMC",
})  # fmt: skip
#: Tags that stand once in a record; a second one is of the next record.
_ONCE = frozenset({"OWN", "STAT", "TI", "T1", "DP", "TA", "JT", "SO", "JID", "PY", "SP", "EP"})


@dataclass(frozen=True, slots=True)
class Piece:
    """Lines that belong together.

    Parameters
    ----------
    layout : Layout or None
        ``None`` where the lines hold tags that could be of two layouts, or are no record.
    line : int
        First line, counted from 1.
    text : str
        The lines.
    whole : bool
        Whether the record begins as its layout says and, where it has an end, ends.
    tagged : bool
        Whether the lines look like a record at all.
    """

    layout: Layout | None
    line: int
    text: str
    whole: bool = True
    tagged: bool = True


def pieces(text: str) -> Iterator[Piece]:
    """Yield the records of a text in order, and the lines that stand outside of any.

    Parameters
    ----------
    text : str
        Its lines end in a newline alone.
    """
    layout: Layout | None = None
    held: list[str] = []
    start = 1
    for number, line in enumerate(text.split("\n"), 1):
        begins = _begins(line)
        # Inside an open RIS record such a line is part of it, unless it stands apart.
        apart = not (held and held[-1].strip())
        inside = layout is Layout.RIS and begins is not Layout.RIS and not apart
        further = layout is Layout.BIBTEX and begins is layout
        if begins is not None and not inside and not further:
            yield from _closed(layout, start, held)
            layout, start, held = begins, number, []
        elif begins is None and (cut := _cut_before(layout, held, line)) is not None:
            # The first line of a record was not copied: it begins behind the one before it.
            yield from _closed(layout, start, held[:cut])
            layout, start, held = None, start + cut, held[cut:]
        held.append(line)
        if layout in (Layout.RIS, None) and _RIS_END.match(line):
            yield from _closed(layout, start, held, ended=True)
            layout, start, held = None, number + 1, []
    yield from _closed(layout, start, held)


def _cut_before(layout: Layout | None, held: list[str], line: str) -> int | None:
    """Return where lines without a first line of their own begin, if this line shows that."""
    found = _TAG.match(line)
    if found is None or layout is Layout.RIS:
        return None
    tag = found[1]
    if layout is Layout.BIBTEX:
        text = "\n".join(held)
        # Behind the last brace, and not within a field that holds such a line.
        ended = text.rstrip().endswith(("}", ")")) and text.count("{") <= text.count("}")
        return len(held) if ended and tag in _RIS_ONLY | _PUBMED_ONLY | _ONCE else None
    if tag not in _ONCE or all(tag != _tag_of(one) for one in held):
        return None
    blank = next((place for place in reversed(range(len(held))) if not held[place].strip()), None)
    return len(held) if blank is None else blank + 1


def _tag_of(line: str) -> str:
    found = _TAG.match(line)
    return found[1] if found else ""


def _begins(line: str) -> Layout | None:
    if _RIS_START.match(line):
        return Layout.RIS
    if _PUBMED_START.match(line):
        return Layout.PUBMED
    return Layout.BIBTEX if _BIBTEX_START.match(line) else None


def _closed(
    layout: Layout | None, start: int, held: list[str], *, ended: bool = False
) -> Iterator[Piece]:
    """Yield what has been gathered, unless it is empty."""
    filled = next((place for place, line in enumerate(held) if line.strip()), None)
    if filled is None:
        return
    text = "\n".join(held[filled:])
    if layout is None:
        yield _headless(start + filled, text)
    else:
        yield Piece(layout, start, text, whole=ended or layout is not Layout.RIS)


def _headless(line: int, text: str) -> Piece:
    """Return lines without the start of a record, with the layout that alone has such tags."""
    tags = {found[1] for one in text.split("\n") if (found := _TAG.match(one))}
    ris, pubmed = bool(tags & _RIS_ONLY), bool(tags & _PUBMED_ONLY)
    if ris != pubmed and len(tags) > 1:
        # OWN is the second line of a PubMed record: it lacks its number and nothing else.
        whole = text.lstrip().startswith("OWN")
        return Piece(Layout.RIS if ris else Layout.PUBMED, line, text, whole)
    return Piece(None, line, text, whole=False, tagged=len(tags) > 1)
