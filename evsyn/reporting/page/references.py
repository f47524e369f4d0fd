"""The studies, numbered, with an address to reach each by."""

from evsyn.reporting.page.markup import Html, element, folded, section, words
from evsyn.reporting.report.content import Reference, ReportContent
from evsyn.wording import report_page as say


def references_section(content: ReportContent) -> Html:
    """Return the references; only an address of the web becomes a link."""
    points = [_point(item) for item in content.references]
    listed = element("ol", *points, class_="references")
    held = folded("references-list", say.list_of(len(points)), listed, is_open=True)
    return section("references", say.REFERENCES, held)


def _point(item: Reference) -> Html:
    told = words(f"{item.label}: {item.text}")
    address = item.address
    if not address.lower().startswith(("https://", "http://")):
        return element("li", told, id=f"ref-{item.number}")
    link = element("a", words(address), href=address, rel="noreferrer noopener")
    return element("li", told, Html(" "), link, id=f"ref-{item.number}")
