"""Read a pasted or saved file of references into citations."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from evsyn.extraction.case_log.encoding import text_of
from evsyn.extraction.case_log.refused import RefusedError
from evsyn.extraction.references.bibtex import bibtex_entries
from evsyn.extraction.references.citation import citation_of
from evsyn.extraction.references.pieces import Piece, pieces
from evsyn.extraction.references.raw import Layout, RawReference
from evsyn.extraction.references.tagged import pubmed_reference, ris_reference
from evsyn.extraction.study import Citation
from evsyn.extraction.yaml_text import HIDDEN
from evsyn.terms import Finding, Severity, Source

RULE = "reference"
_LINE_ENDS = re.compile(r"\r\n|[\r\n\v\f\x85\u2028\u2029]")
_AGAIN = (
    "On the page of the paper or of the database, choose to export or save the citation as RIS, "
    "PubMed (nbib) or BibTeX, and give that file or paste the whole of it."
)
_LACKING = {Layout.RIS: "its line TY or ER", Layout.PUBMED: "its line PMID"}
_FIRST_LINES = "TY of RIS, PMID of PubMed, @ of BibTeX"


@dataclass(frozen=True, slots=True)
class ReadCitation:
    """One record as a citation.

    Parameters
    ----------
    citation : Citation
        As it would stand in an extract.
    source : Source
        File, and the line on which the record begins.
    layout : Layout
        How the record is written.
    """

    citation: Citation
    source: Source
    layout: Layout


@dataclass(frozen=True, slots=True)
class ReferencesRead:
    """The records of a file.

    Parameters
    ----------
    citations : tuple of ReadCitation
        In the order of the file.
    findings : tuple of Finding
        What could not be read (faults), and what a reader should look at (doubts, notes).
    """

    citations: tuple[ReadCitation, ...]
    findings: tuple[Finding, ...]


def read_references(written: str | bytes, name: str) -> ReferencesRead:
    """Read every RIS, PubMed and BibTeX record of a file or of a pasted text.

    Parameters
    ----------
    written : str or bytes
        The text, or a file in UTF-8, UTF-16 with a byte-order mark, or Windows-1252; any line
        ends.
    name : str
        What findings call it.

    Returns
    -------
    ReferencesRead
        Nothing is made up: what a record does not say is left out and said in the note of its
        citation. Never raises for what a file may hold.
    """
    try:
        text = text_of(written) if isinstance(written, bytes) else written
    except RefusedError:
        said = "the file is not text that can be read"
        return ReferencesRead((), (_finding(Severity.FAULT, Source(name, 1), said, _AGAIN),))
    text = _LINE_ENDS.sub("\n", text.removeprefix("\ufeff"))
    findings: list[Finding] = []
    hidden = HIDDEN.search(text)
    if hidden is not None:
        line = text.count("\n", 0, hidden.start()) + 1
        said = "hidden characters that cannot be printed were left out"
        cure = "Compare the citation with the paper."
        findings.append(_finding(Severity.DOUBT, Source(name, line), said, cure))
        text = HIDDEN.sub("", text)
    citations: list[ReadCitation] = []
    for piece in pieces(text):
        for found in _of_piece(piece, name):
            if isinstance(found, Finding):
                findings.append(found)
            else:
                citations.append(found)
    if not citations and not any(one.severity is Severity.FAULT for one in findings):
        said = "no record in RIS, PubMed or BibTeX layout"
        findings = [one for one in findings if one.severity is not Severity.NOTE]
        findings.append(_finding(Severity.FAULT, Source(name, 1), said, _AGAIN))
    return ReferencesRead(tuple(citations), tuple(findings))


def _of_piece(piece: Piece, name: str) -> Iterator[ReadCitation | Finding]:
    place = Source(name, piece.line)
    if piece.layout is None:
        # Between records, lines that begin with % (in BibTeX) or # are remarks.
        if any(not line.startswith(("%", "#")) for line in piece.text.split("\n") if line.strip()):
            yield _outside(piece, place)
        return
    if not piece.whole:
        yield _finding(
            Severity.DOUBT,
            place,
            f"the {piece.layout} record that begins here lacks {_LACKING[piece.layout]}, so that "
            "more of it may be missing",
            "Copy the record again in full, or compare the citation with the paper.",
        )
    for line, raw in _records(piece):
        source = Source(name, line)
        made = citation_of(raw, piece.layout) if raw is not None else None
        if raw is None:
            said = "the BibTeX record that begins here cannot be read"
            cure = (
                "Look for a brace or quotation mark that is not closed, a missing comma, or a "
                "line of text that begins with @."
            )
            yield _finding(Severity.FAULT, source, said, cure)
        elif made is None:
            said = f"the {piece.layout} record that begins here says nothing to find a paper by"
            cure = "Give a record with a title, authors, a DOI or a PubMed number."
            yield _finding(Severity.FAULT, source, said, cure)
        else:
            yield ReadCitation(made, source, piece.layout)


def _records(piece: Piece) -> Iterator[tuple[int, RawReference | None]]:
    if piece.layout is Layout.BIBTEX:
        for entry in bibtex_entries(piece.text):
            yield piece.line + entry.line, entry.raw
    elif piece.layout is Layout.RIS:
        yield piece.line, ris_reference(piece.text)
    else:
        yield piece.line, pubmed_reference(piece.text)


def _outside(piece: Piece, place: Source) -> Finding:
    if piece.tagged:
        said = "the lines from here could be of a RIS or of a PubMed record, and are not read"
        cure = f"Copy the record again from its first line ({_FIRST_LINES})."
        return _finding(Severity.FAULT, place, said, cure)
    lines = piece.text.rstrip().count("\n") + 1
    words = "this line stands" if lines == 1 else f"the {lines} lines from here stand"
    cure = (
        f"Nothing is to be done, unless they are a record without its first line ({_FIRST_LINES})."
    )
    return _finding(Severity.NOTE, place, f"{words} outside of any record", cure)


def _finding(severity: Severity, place: Source, said: str, cure: str) -> Finding:
    return Finding(RULE, severity, place, said, cure)
