"""The bands of a forest, from its words in order: a label, a count, rows of results, a range."""

import re
from collections.abc import Iterable, Mapping

from tests.reporting.outlets.printed import COUNT, RATE, SPAN, STUDIES, digits
from tests.reporting.page.read_html import Node

TAGS = {"headline": "headline", "read this": "read"}


def bands(words: Iterable[tuple[str, str]], keys: Mapping[str, str]) -> dict[str, dict[str, str]]:
    """Return what each band prints, by the key of its pool.

    Parameters
    ----------
    words : iterable of (str, str)
        Role and text of everything written, in order.
    keys : mapping
        Keys of the pools by the label of their band.
    """
    found: dict[str, dict[str, str]] = {}
    said: dict[str, list[str]] = {}
    at = tag = ""
    for role, text in words:
        label = text.removesuffix(" (continued)").lower()
        if role == "band" and label in keys:
            at = keys[label]
            found.setdefault(at, {"headline": "", "read": ""})
        elif role == "band" and re.fullmatch(rf"(?:{COUNT} in )?{STUDIES}", text):
            count = re.match(COUNT, text)
            found[at]["count"] = count[0] if count else ""
            found[at]["studies"] = text.removeprefix(f"{found[at]['count']} in ").split()[0]
        elif role in {"band", "sentence"}:
            said.setdefault(at, []).append(text)
        elif role == "summary" and text in TAGS:
            tag = TAGS[text]
        elif role == "summary" and re.fullmatch(RATE, text):
            found[at][tag] = digits(text)
    for key, lines in found.items():
        text = " ".join(said.get(key, []))
        reach = re.search(rf"range for an ordinary new setting(?: is|:) ({SPAN})", text)
        lines["range"] = digits(reach[1]) if reach else ""
    return found


def svg_words(drawn: Node) -> list[tuple[str, str]]:
    """Return role and text of everything written on a figure, in order."""
    groups = [group for group in drawn.all("g") if not group.all("g")]
    return [
        (group.attributes.get("class", ""), text.text)
        for group in groups
        for text in group.all("text")
    ]
