"""What a paper is found by: DOI, PubMed number, web address."""

import re
from collections.abc import Iterable
from urllib.parse import unquote

# The prefix of a DOI is "10." and a number; what follows the slash may be almost anything
# (DOI Handbook, numbering).
_DOI = re.compile(r"10\.[0-9]{4,9}(?:\.[0-9]+)*/\S+")
_PMID = re.compile(r"(?:pmid|pubmed|medline)?[\s:]*0*([1-9][0-9]{0,7})(?:\s*\[pmid\])?\.?", re.I)
_PUBMED = re.compile(
    r"https?://(?:pubmed\.ncbi\.nlm\.nih\.gov|(?:www\.)?ncbi\.nlm\.nih\.gov/(?:m/)?pubmed)"
    r"/([1-9][0-9]{0,7})(?![0-9])",
    re.IGNORECASE,
)
_WEB = re.compile(r"https?://[^\s;<>\"{}]+(?:;[^\s;<>\"{}:]+=[^\s;<>\"{}]*)*", re.IGNORECASE)
_DOI_SITE = re.compile(r"https?://(?:dx\.)?doi\.org/", re.IGNORECASE)
_PAIRS = {")": "(", "]": "[", "}": "{"}


def doi_in(text: str) -> str:
    """Return the DOI in a text, without what stands before or behind it; empty where none is.

    Examples
    --------
    >>> doi_in("https://doi.org/10.1000/AbC."), doi_in("10.1000/x [doi]"), doi_in("none")
    ('10.1000/AbC', '10.1000/x', '')
    """
    found = _DOI.search(unquote(text) if "://" in text else text)
    if found is None:
        return ""
    doi = found.group()
    while doi[-1] in ".,;:'\"" or (
        doi[-1] in _PAIRS and doi.count(_PAIRS[doi[-1]]) < doi.count(doi[-1])
    ):
        doi = doi[:-1]
    return doi if _DOI.fullmatch(doi) else ""


def same_form(doi: str) -> str:
    """Return a DOI as it is compared: letter case does not matter (DOI Handbook)."""
    return (doi_in(doi) or doi).casefold()


def pmid_in(text: str) -> str:
    """Return the digits of a field that holds a PubMed number and nothing else, or nothing."""
    found = _PMID.fullmatch(text.strip())
    return found[1] if found else ""


def pmid_of_address(text: str) -> str:
    """Return the number in the address of a page of PubMed, or nothing."""
    found = _PUBMED.search(text)
    return found[1] if found else ""


def addresses_in(texts: Iterable[str]) -> list[str]:
    """Return the web addresses in some texts; a link made of a DOI says nothing more than it.

    Places on a disk are passed over: they lead nobody else to the paper.
    """
    found = [address.group().rstrip(".,)") for text in texts for address in _WEB.finditer(text)]
    return [one for one in dict.fromkeys(found) if not _DOI_SITE.match(one)]
