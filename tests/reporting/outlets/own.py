"""What is printed of the pools a unit is set against: those without its own series."""

import re
from functools import cache

from evsyn.reporting.audit_page import audit_text
from evsyn.reporting.slides import slides_bytes
from evsyn.terms import Audience
from tests.reporting.outlets.bands import bands, svg_words
from tests.reporting.outlets.made import Lines, content_with_unit, keys_of, stratum_of, unit
from tests.reporting.outlets.paged import drawings
from tests.reporting.outlets.printed import RATE, digits, flat
from tests.reporting.page.made import review, unit_page
from tests.reporting.page.read_html import Node, parsed
from tests.reporting.slides.opened import notes, opened

AGAINST = re.compile(
    r"Benchmark: (?P<studies>\d+) stud\w+, (?P<of>[\d,]+) .*?; "
    rf"(?:typical|mean) rate (?P<read>{RATE})"
)


@cache
def page() -> Node:
    return parsed(unit_page(Audience.INSIDE))


@cache
def talk():
    return opened(slides_bytes(content_with_unit()))


def _against(label: str, group: str, text: str) -> Lines:
    """Yield what one count of the unit is set against; nothing where it is not."""
    found = AGAINST.search(flat(text))
    if found:
        plan = review("demo").plan
        (outcome,) = [name for name, words in plan.outcomes.items() if words.label == label]
        keys = keys_of("demo", outcome, stratum_of("demo", [group]))
        keys["all cases"] = keys["all studies"]
        told = {"studies": found["studies"], "of": found["of"], "read": digits(found["read"])}
        yield keys[group.lower()], told


def audit(_: str) -> Lines:
    """Yield what the audit in the terminal sets each count against."""
    text = audit_text(review("demo"), unit(), Audience.INSIDE)
    parts = re.split(r"\n\n(\S[^\n]*: [^\n]*)\n-+\n", text)
    for title, body in zip(parts[1::2], parts[2::2], strict=True):
        label, _, group = title.partition(": ")
        yield from _against(label, group, body.partition("\n\n")[0])


def page_part(_: str) -> Lines:
    """Yield what the unit's part of the page sets each count against."""
    for section in page().by_id("unit").all("section"):
        label, _, group = section.all("h3")[0].text.partition(": ")
        yield from _against(label, group, section.text)


def slide_notes(_: str) -> Lines:
    """Yield what the notes of the unit's slides set each count against."""
    for slide in talk().slides:
        label = group = ""
        for line in notes(slide).split("\n"):
            if found := re.match(r"([^:,]+), ([^:]+): (?:\d+|none|all \d+) of \d+ ", line):
                label, group = found[1], found[2]
            yield from _against(label, group, line)


def page_forests(_: str) -> Lines:
    """Yield the bands of the forests of a page where the unit's rows stand.

    A forest of an outcome that the unit does not report keeps every study.
    """
    reported = {name for group in unit().unit.groups for name in group.outcomes}
    for outcome in (one for one in review("demo").plan.outcomes if one in reported):
        for drawn in drawings(page().by_id(f"forest-{outcome}")):
            words = svg_words(drawn)
            stratum = stratum_of("demo", [text for role, text in words if role == "band"])
            yield from bands(words, keys_of("demo", outcome, stratum)).items()
