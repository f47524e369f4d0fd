"""The studies, numbered, with an address to reach each by."""

from evsyn.reporting.page.markup import Html, element, folded, section, words
from evsyn.reporting.report.content import Reference, ReportContent
from evsyn.wording import report_page as say

DOI, PUBMED = "https://doi.org/", "https://pubmed.ncbi.nlm.nih.gov/"


def references_section(content: ReportContent) -> Html:
    """Return the references; only an address of the web becomes a link."""
    points = [_point(item) for item in content.references]
    listed = element("ol", *points, class_="references")
    held = folded("references-list", say.list_of(len(points)), listed, is_open=True)
    return section("references", say.REFERENCES, held)


def _point(item: Reference) -> Html:
    told = f"{item.label}: {item.text}"
    address = item.address
    if not address.lower().startswith(("https://", "http://")):
        return element("li", words(told), id=f"ref-{item.number}")
    before, shown, after = _parted(told, address)
    link = element("a", words(shown), href=address, rel="noreferrer noopener")
    return element("li", words(before), link, words(after), id=f"ref-{item.number}")


def _parted(told: str, address: str) -> tuple[str, str, str]:
    """Part a reference around what leads to the paper, so that it is not printed twice."""
    short = (address.removeprefix(DOI), address.removeprefix(PUBMED).rstrip("/"))
    for shown in (address, *short):
        if shown in told:
            before, _, after = told.rpartition(shown)
            return before, shown, after
    return f"{told} ", address, ""
