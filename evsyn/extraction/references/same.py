"""Whether two citations are of one paper: by DOI, by PubMed number, then by title and year."""

import re
import unicodedata
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import unescape

from evsyn.extraction.references.found_by import pmid_in, same_form
from evsyn.extraction.references.read import ReadCitation
from evsyn.extraction.review import Review
from evsyn.extraction.study import Citation, Study
from evsyn.terms import Source

_TAG = re.compile(r"</?[A-Za-z]{1,6}>")
#: Papers appear online before the issue they are counted to, often in the year before.
YEARS_APART = 1
#: A title of as many words tells a paper, even if its first authors are written differently.
TELLING_WORDS = 8
#: A title of as many words tells a paper where one of two citations names no author.
ENOUGH_WORDS = 5


def same_paper(one: Citation, other: Citation) -> str | None:
    """Return why two citations are taken for one paper, or ``None``.

    Parameters
    ----------
    one, other : Citation
        In any order.

    Returns
    -------
    str or None
        The strongest reason: the same DOI, letter case aside; the same PubMed number; the same
        title, in letters and digits alone, in years no more than one apart. The first authors
        must share a surname, unless the title has eight words, or five where one citation names
        no author. Last comes the same web address, where nothing else tells the papers apart.
        A meeting abstract or a preprint often has the title of the later paper and a DOI of its
        own; that is told with the reason.
    """
    if one.doi and other.doi and same_form(one.doi) == same_form(other.doi):
        return f"DOI {same_form(one.doi)}"
    if one.pmid and other.pmid and _number(one) == _number(other):
        return f"PubMed number {_number(one)}"
    if not _same_title(one, other):
        return f"address {one.address}" if _same_page(one, other) else None
    reason = "title" if one.year is None or other.year is None else "title and year"
    if one.year is not None and other.year is not None and one.year != other.year:
        reason = "title, a year apart"
    if (one.doi and other.doi) or (one.pmid and other.pmid):
        return f"{reason}, under another DOI or PubMed number"
    return reason


def same_pairs(citations: Sequence[Citation]) -> Iterator[tuple[int, int, str]]:
    """Yield the places of each two citations of one paper, the earlier first, and the reason.

    Those that share nothing are never compared, so that thousands take no time.
    """
    alike: dict[str, list[int]] = defaultdict(list)
    for place, cited in enumerate(citations):
        met = sorted({earlier for key in _keys(cited) for earlier in alike[key]})
        for earlier in met:
            reason = same_paper(citations[earlier], cited)
            if reason is not None:
                yield earlier, place, reason
        for key in _keys(cited):
            alike[key].append(place)


@dataclass(frozen=True, slots=True)
class Duplicate:
    """A record of a paper that stands elsewhere too.

    Parameters
    ----------
    record : ReadCitation
        The record.
    study : str
        Name of the study of the review; empty where it is an earlier record of the same file.
    source : Source
        Where the other citation is written.
    reason : str
        Why they are taken for one paper.
    """

    record: ReadCitation
    study: str
    source: Source
    reason: str


def duplicates(records: Sequence[ReadCitation], review: Review | None) -> list[Duplicate]:
    """Return which records are papers of a review, its further reports too, or stand twice.

    Parameters
    ----------
    records : sequence of ReadCitation
        In the order of their file.
    review : Review or None
        ``None`` to compare the records with each other alone.
    """
    papers = [paper for study in review.studies for paper in papers_of(study)] if review else []
    named = [(study.study, cited.source()) for study, cited in papers]
    named += [("", record.source) for record in records]
    citations = [cited for _, cited in papers] + [record.citation for record in records]
    found: dict[tuple[int, str, Source], Duplicate] = {}
    for earlier, later, reason in same_pairs(citations):
        if later < len(papers):
            continue
        study, source = named[earlier]
        key = (later, study, Source("", 0) if study else source)
        found.setdefault(key, Duplicate(records[later - len(papers)], study, source, reason))
    return list(found.values())


def papers_of(study: Study) -> Iterator[tuple[Study, Citation]]:
    """Yield the paper of a study and its further reports."""
    yield study, study.citation
    for report in study.reports:
        yield study, report.citation


def _number(cited: Citation) -> str:
    return pmid_in(cited.pmid or "") or (cited.pmid or "")


def _keys(cited: Citation) -> list[str]:
    """Return what a citation must share with another of the same paper, at least in part."""
    keys = []
    if cited.doi:
        keys.append(f"doi {same_form(cited.doi)}")
    if cited.pmid:
        keys.append(f"pmid {_number(cited)}")
    if title := " ".join(_words(cited.title)):
        keys.append(f"title {title}")
    if cited.address:
        keys.append(f"address {cited.address}")
    return keys


def _same_title(one: Citation, other: Citation) -> bool:
    words = _words(one.title)
    if not words or words != _words(other.title):
        return False
    if one.year is not None and other.year is not None and abs(one.year - other.year) > YEARS_APART:
        return False
    here, there = _first_author(one), _first_author(other)
    if here and there:
        return bool(here & there) or len(words) >= TELLING_WORDS
    return len(words) >= ENOUGH_WORDS


def _same_page(one: Citation, other: Citation) -> bool:
    """Return whether both were read at one address and nothing tells the papers apart."""
    pairs = ((one.doi, other.doi), (one.pmid, other.pmid), (one.title, other.title))
    told_apart = any(here and there for here, there in pairs)
    return bool(one.address) and one.address == other.address and not told_apart


def _words(text: str | None) -> list[str]:
    """Return the words of a text without letter case, accents, marks and tags of a page."""
    letters = unicodedata.normalize("NFKD", _TAG.sub("", unescape(text or "")))
    bare = "".join(letter for letter in letters if not unicodedata.combining(letter))
    return re.findall(r"[^\W_]+", bare.casefold())


def _first_author(cited: Citation) -> set[str]:
    """Return the words of the first author's surname, initials left out."""
    first = re.split(r",|\bet al\b", cited.authors or "")[0].split()
    while len(first) > 1 and first[-1].isupper() and len(first[-1]) <= 4:
        first.pop()
    return set(_words(" ".join(first)))
