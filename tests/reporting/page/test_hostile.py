"""Nothing written in a paper, a note or an address can break out of the page."""

import json
import xml.etree.ElementTree as ET
from dataclasses import replace

import pytest

from evsyn.reporting.page import page_html
from evsyn.reporting.page.markup import words
from evsyn.reporting.page.scripts import data_element
from evsyn.reporting.report.content import report_content
from tests.reporting.page.made import review
from tests.reporting.page.read_html import parsed

HOSTILE = [
    "</title></style></script><script>alert(1)</script>",
    "\"><img src=x onerror=alert(1)>' onfocus=alert(1) x='",
    "<!-- ]]> <![CDATA[ &lt;b&gt; &amp; &#60;",
    '=HYPERLINK("http://x","y") {seen} $& ${1} \\u003c/script> `x`',
    "\u202e1 of 04\u202c \u05e9\u05dc\u05d5\u05dd \u0661 \U0001f600 \u2028 \x00\x0b\x1b\ufffe",
]
PLAIN = "plain words"


def touched(text):
    """Return the review with a text wherever people write text."""
    found = review()
    plan = found.plan
    outcomes = {
        name: item.model_copy(
            update={"label": f"{name} {text}", "definition": text, "event": text, "events": text}
        )
        for name, item in plan.outcomes.items()
    }
    plan = plan.model_copy(
        update={
            "title": text,
            "question": text,
            "search_note": text,
            "outcomes": outcomes,
            "denominators": dict.fromkeys(plan.denominators, text),
        }
    )
    studies = []
    for number, study in enumerate(found.studies[:12]):
        cited = study.citation.model_copy(
            update={
                "authors": f"{number} {text}",
                "title": text,
                "doi": None,
                "pmid": None,
                "address": f"javascript:alert('{text}')",
            }
        )
        arms = [
            arm.model_copy(
                update={
                    "outcomes": {name: _moved(count, text) for name, count in arm.outcomes.items()}
                }
            )
            for arm in study.arms
        ]
        studies.append(study.model_copy(update={"citation": cited, "arms": arms}))
    findings = tuple(replace(item, message=text, cure=text) for item in found.findings)
    return replace(found, plan=plan, studies=tuple(studies), findings=findings)


def _moved(count, text):
    moved = count.model_copy(update={"at": text})
    moved._block, moved._file = count._block, count._file
    return moved


def skeleton(document):
    """Return tags and names of attributes but those of drawings, whose lines break by length."""
    root = parsed(document)
    drawn = {id(node) for svg in root.all("svg") for node in (svg, *svg.all())}
    return [(n.tag, sorted(n.attributes)) for n in root.all() if id(n) not in drawn]


@pytest.fixture(scope="module")
def plain_skeleton():
    return skeleton(page_html(report_content(touched(PLAIN))))


@pytest.mark.parametrize("text", HOSTILE, ids=["close", "quote", "comment", "formula", "turning"])
def test_a_hostile_text_leaves_the_page_built_as_it_was(text, plain_skeleton):
    document = page_html(report_content(touched(text)))
    assert skeleton(document) == plain_skeleton
    root = parsed(document)
    allowed = {
        "svg",
        "a",
        "desc",
        "rect",
        "g",
        "title",
        "text",
        "line",
        "circle",
        "polygon",
        "polyline",
    }
    for svg in root.all("svg"):
        assert {node.tag for node in svg.all()} <= allowed
    assert not [a for node in root.all() for a in node.attributes if a.startswith("on")]
    assert not [n for n in root.all("a") if "javascript" in n.attributes.get("href", "")]
    assert not set("\u202e\u2066\x00\x1b\ufffe") & set(document)
    data = json.loads("".join(root.by_id("figures").parts))
    told = data["outcomes"][0]["events"]
    assert [c for c in told if c in text] == list(told)
    assert len(told) >= len(text) - 6


def test_each_drawing_is_well_formed_xml():
    document = page_html(report_content(touched(HOSTILE[0])))
    drawings = document.split("<svg ")[1:]
    assert len(drawings) >= 10
    for drawing in drawings:
        ET.fromstring("<svg " + drawing.partition("</svg>")[0] + "</svg>")


def test_text_is_shown_letter_by_letter():
    root = parsed(page_html(report_content(touched(HOSTILE[0]))))
    assert root.all("h1")[0].text == HOSTILE[0]
    assert root.all("title")[0].text == HOSTILE[0]


def test_words_keep_right_to_left_script_and_drop_what_turns_it():
    assert words("\u05d0<\u202eb\u2069") == "\u05d0&lt;b"


def test_data_cannot_end_its_element():
    told = data_element("x", {"a": "</script><!--<script>\u2028\ud800"})
    assert told.count("<") == 2
    assert json.loads(told.partition(">")[2].rpartition("<")[0])["a"].startswith("</script><!--")
