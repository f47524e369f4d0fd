"""From the fields of a record to a citation; what is not there is left out and said."""

import re
from collections.abc import Iterable

from evsyn.extraction.references.found_by import (
    addresses_in,
    doi_in,
    pmid_in,
    pmid_of_address,
    same_form,
)
from evsyn.extraction.references.names import ET_AL
from evsyn.extraction.references.pages import volume_issue_pages
from evsyn.extraction.references.raw import Layout, RawReference, one_line
from evsyn.extraction.study import Citation

#: Longest text a field of an extract takes.
LONGEST = 4000
SHOWN = 60
_ABBREVIATED = re.compile(r"\.\w*\.$")
_YEAR = re.compile(r"(?<![0-9])(19[0-9]{2}|20[0-9]{2}|2100)(?![0-9])")


def citation_of(raw: RawReference, layout: Layout) -> Citation | None:
    """Return the citation, or ``None`` where the record holds nothing to find a paper by.

    Parameters
    ----------
    raw : RawReference
        The fields.
    layout : Layout
        Named in the note.
    """
    remarks = list(raw.remarks)
    year = _YEAR.search(raw.year)
    if raw.year and year is None:
        remarks.append(f"Year not read from '{_short(raw.year)}'.")
    dois = _distinct(doi_in(text) for text in (*raw.dois, *raw.addresses))
    pmids = _distinct(
        (*map(pmid_in, raw.pmids), *map(pmid_of_address, (*raw.pmids, *raw.addresses)))
    )
    remarks += _seconds("DOI", dois) + _seconds("PubMed number", pmids)
    if raw.dois and not dois:
        remarks.append(f"DOI not read from '{_short(raw.dois[0])}'.")
    if raw.pmids and not pmids:
        remarks.append(f"PubMed number not read from '{_short(raw.pmids[0])}'.")
    authors, cut = _joined(raw.authors)
    remarks += cut
    parts = {
        "authors": authors,
        "title": _without_stop(one_line(raw.title)),
        "journal": one_line(raw.journal),
        "pages": one_line(volume_issue_pages(raw.volume, raw.issue, raw.pages, raw.article)),
        "doi": "".join(dois[:1]),
        "pmid": "".join(pmids[:1]),
        "address": "".join(addresses_in(raw.addresses)[:1]),
    }
    for name, text in parts.items():
        if len(text) > LONGEST:
            remarks.append(f"{name.capitalize()} longer than {LONGEST} letters, and left out.")
            parts[name] = ""
    if not any(text for name, text in parts.items() if name != "pages"):
        return None
    known = {name: text for name, text in parts.items() if text}
    said = [*_missing(raw, bool(dois or pmids), layout), *remarks]
    note = one_line(" ".join(said))[:LONGEST].rstrip() or None
    return Citation(year=int(year[1]) if year else None, note=note, **known)


def _missing(raw: RawReference, is_numbered: bool, layout: Layout) -> list[str]:
    """Say which parts of a printed citation the record does not hold."""
    parts = {
        "authors": raw.authors,
        "title": raw.title,
        "journal": raw.journal,
        "year": raw.year,
        "volume": raw.volume,
        "pages": raw.pages or raw.article,
    }
    lacking = [name for name, told in parts.items() if not told]
    said = []
    if lacking:
        *first, last = lacking
        words = f"{', '.join(first)} and {last}" if first else last
        said.append(f"{words.capitalize()} not in the {layout} record.")
    if not (is_numbered or raw.dois or raw.pmids):
        said.append(f"No DOI or PubMed number in the {layout} record.")
    return said


def _joined(authors: tuple[str, ...]) -> tuple[str, list[str]]:
    """Return the authors in one text; of a list too long for a field, as many as it takes."""
    if authors[1:] == (ET_AL,):
        return " ".join(authors), []
    if len(", ".join(authors)) <= LONGEST:
        return ", ".join(authors), []
    kept = list(authors)
    while kept and len(", ".join((*kept, ET_AL))) > LONGEST:
        kept.pop()
    said = f"{len(kept)} of {len(authors)} authors listed."
    return ", ".join((*kept, ET_AL)) if kept else "", [said]


def _distinct(found: Iterable[str]) -> list[str]:
    return list({same_form(one): one for one in reversed([*filter(None, found)])}.values())[::-1]


def _seconds(what: str, found: list[str]) -> list[str]:
    return [f"The record gives a second {what}, {_short(one)}." for one in found[1:3]]


def _without_stop(title: str) -> str:
    """Drop the full stop that ends a title in a list of references, not that of ``U.S.``."""
    return title[:-1] if title.endswith(".") and not _ABBREVIATED.search(title) else title


def _short(text: str) -> str:
    line = one_line(text)
    return line if len(line) <= SHOWN else f"{line[:SHOWN]}..."
