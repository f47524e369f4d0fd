"""Volume, issue and pages as extracts write them: ``12(9):1005-1013``."""

import re

_LABEL = re.compile(r"(?:volume|vol|issue|no|number|pages?|pp?)\b\.?\s*(?=\w)", re.IGNORECASE)
_DASHES = re.compile(r"\s*(?:-{2,}|[‐‑‒–—−-])\s*")
_SPAN = re.compile(r"(?<![\w-])([0-9]+)-([0-9]+)(?![\w-])")


def volume_issue_pages(volume: str, issue: str, pages: str, article: str) -> str:
    """Return what there is of them, in one text.

    Parameters
    ----------
    volume, issue, pages, article : str
        As printed; empty where not told. ``article`` is used where there are no pages.

    Examples
    --------
    >>> volume_issue_pages("12", "9", "1005-13", ""), volume_issue_pages("8", "", "", "")
    ('12(9):1005-1013', 'volume 8')
    """
    where = full_span(_bare(pages))
    if not where and article:
        where = f"article {_bare(article)}"
    head, number = _bare(volume), _bare(issue)
    head = f"{head}({number})" if number else head
    if head and where:
        return f"{head}:{where}"
    if head:
        return head if number else f"volume {head}"
    if re.fullmatch(r"[0-9]+", where):
        return f"page {where}"
    return f"pages {where}" if _SPAN.fullmatch(where) else where


def full_span(pages: str) -> str:
    """Write plain hyphens, and a shortened last page in full: ``1005-13`` as ``1005-1013``.

    PubMed leaves out the digits that both pages share (NLM, MEDLINE data elements, PG).
    """

    def whole(found: re.Match[str]) -> str:
        first, last = found.groups()
        missing = len(first) - len(last)
        longer = first[:missing] + last if missing > 0 else last
        return f"{first}-{longer if int(longer) >= int(first) else last}"

    return _SPAN.sub(whole, _DASHES.sub("-", pages)).strip("-;, ")


def _bare(text: str) -> str:
    """Return the text without ``Vol.`` or ``pp.`` before it."""
    return _LABEL.sub("", text.strip(), count=1) if _LABEL.match(text.strip()) else text.strip()
