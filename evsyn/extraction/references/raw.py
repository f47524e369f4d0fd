"""What a record says of a paper, before it is put into the form of an extract."""

from dataclasses import dataclass
from enum import StrEnum


class Layout(StrEnum):
    """How a record is written."""

    RIS = "RIS"
    PUBMED = "PubMed"
    BIBTEX = "BibTeX"


@dataclass(frozen=True, slots=True)
class RawReference:
    """The fields of one record, as printed; an empty text or tuple is one that is not there.

    Parameters
    ----------
    authors : tuple of str
        Each as ``Surname I``; a group by its name; ``et al.`` last where the list is cut.
    title, journal, year, volume, issue, pages, article : str
        ``year`` may be a whole date; ``article`` is a number that stands for pages.
    dois, pmids, addresses : tuple of str
        Fields that may hold one, the likeliest first.
    remarks : tuple of str
        Sentences a reader of the citation should see.
    """

    authors: tuple[str, ...] = ()
    title: str = ""
    journal: str = ""
    year: str = ""
    volume: str = ""
    issue: str = ""
    pages: str = ""
    article: str = ""
    dois: tuple[str, ...] = ()
    pmids: tuple[str, ...] = ()
    addresses: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()


def one_line(text: str) -> str:
    """Return the text with every run of spaces and line ends as one space."""
    return " ".join(text.split())
