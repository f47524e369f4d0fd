"""One file, offline, in order, readable by ear and without scripts."""

import base64
import hashlib
import re
from itertools import pairwise

import pytest

from evsyn.terms import Audience
from tests.reporting.page.made import content, page, unit_page
from tests.reporting.page.read_html import parsed

PAGES = {
    "demo": lambda: page(),
    "trials": lambda: page("published-trials"),
    "inside": lambda: unit_page(Audience.INSIDE),
    "outside": lambda: unit_page(Audience.OUTSIDE),
}
#: Attributes by which a document fetches something by itself.
FETCHING = {"src", "srcset", "data", "poster", "background", "action", "formaction", "ping"}


@pytest.fixture(params=PAGES)
def document(request):
    return PAGES[request.param]()


def test_nothing_is_fetched(document):
    for node in parsed(document).all():
        assert not FETCHING & set(node.attributes), node.tag
        assert node.tag not in {"link", "iframe", "object", "embed", "img", "image", "use", "base"}
        assert node.tag == "a" or "href" not in node.attributes
        assert node.tag == "a" or "xlink:href" not in node.attributes
    style = "".join(node.text for node in parsed(document).all("style"))
    assert "url(" not in style
    assert "@import" not in style


def test_its_policy_lets_its_own_script_run_and_nothing_else(document):
    (policy,) = re.findall(r'Content-Security-Policy" content="([^"]+)"', document)
    scripts = re.findall(r"<script>(.*?)</script>", document, flags=re.S)
    assert len(scripts) == 1
    digest = base64.b64encode(hashlib.sha256(scripts[0].encode()).digest()).decode()
    assert f"script-src &#x27;sha256-{digest}&#x27;" in policy
    assert policy.startswith("default-src &#x27;none&#x27;")


# HTML Living Standard and WCAG 2.2 (1.3.1, 2.4.1, 2.4.2, 3.1.1): landmarks, one heading of the
# first level, none skipped, headers with scope, language, a link past the contents.
def test_its_structure_can_be_heard(document):
    root = parsed(document)
    (html,) = root.all("html")
    assert html.attributes["lang"] == "en-GB"
    assert len(root.all("head")[0].all("title")) == 1
    for landmark in ("header", "nav", "main", "footer", "h1"):
        assert len(root.all(landmark)) == 1, landmark
    levels = [int(node.tag[1]) for node in root.all("h1", "h2", "h3", "h4")]
    assert all(below <= above + 1 for above, below in pairwise(levels))
    for table in root.all("table"):
        assert table.all("caption")
        assert {node.attributes.get("scope") for node in table.all("th")} <= {"col", "row"}
        wide = len(table.all("thead")[0].all("th"))
        for row in table.all("tbody")[0].all("tr"):
            assert len(row.all("th", "td")) == wide
    for control in root.all("input", "select"):
        assert any(control in label.all() for label in root.all("label"))
    first = root.all("body")[0].all("a")[0]
    assert first.attributes["class"] == "skip"


def test_ids_are_unique_and_every_link_within_leads_somewhere(document):
    nodes = parsed(document).all()
    names = [node.attributes["id"] for node in nodes if "id" in node.attributes]
    assert len(names) == len(set(names))
    inside = {
        n.attributes["href"][1:] for n in nodes if n.attributes.get("href", "").startswith("#")
    }
    assert inside <= set(names)
    told = {
        node.attributes["aria-labelledby"] for node in nodes if "aria-labelledby" in node.attributes
    }
    assert told <= set(names)


def test_sections_stand_in_order():
    heads = [node.text for node in parsed(unit_page(Audience.INSIDE)).all("h2")]
    assert heads == [
        "The question", "The answer", "Our own figures", "Each outcome",
        "The search, and what became of each paper", "The evidence, count by count",
        "What was left out, and why", "Doubts", "What if a count were disputed?",
        "How the numbers were made", "References",
        "What the evidence cannot say", "Cautions", "Try your own figures",
    ]  # fmt: skip


def test_the_marks_stand_first_and_last():
    for document, mark in (
        (unit_page(Audience.INSIDE), "INSIDE THE UNIT"),
        (unit_page(Audience.OUTSIDE), "FOR USE OUTSIDE"),
    ):
        for part in ("header", "footer"):
            (node,) = parsed(document).all(part)
            assert mark in node.text
            assert "INVENTED DATA" in node.text
            assert content().status in node.text


def test_every_study_is_a_numbered_reference_and_every_count_links_to_one():
    root = parsed(page())
    points = root.by_id("references").all("li")
    assert [node.attributes["id"] for node in points] == [f"ref-{n}" for n in range(1, 31)]
    rows = root.by_id("evidence-table").all("tbody")[0].all("tr")
    assert all(row.all("a")[0].attributes["href"].startswith("#ref-") for row in rows)


def test_each_row_of_a_forest_plot_leads_to_its_count_and_back_without_scripts():
    root = parsed(page())
    for item in content().outcomes:
        drawn = [
            f for f in root.all("figure") if re.match(f"forest-{item.name}", f.attributes["id"])
        ]
        for drawing in (box for figure in drawn for box in figure.all("div")):
            rows = [g for g in drawing.all("g") if g.attributes["class"] == "study"]
            links = [one for one in drawing.all("a") if one.all("g")]
            assert len(links) == len(rows) > 0
            for link in links:
                row = root.by_id(link.attributes["href"][1:])
                drawn = link.all("title")[0].text
                label, count = row.all("th")[0].text, row.all("td")[2].text.partition(" (")[0]
                assert drawn.startswith(label)
                assert count in drawn
                back = row.all("td")[0].all("a")[0]
                assert back.attributes["href"] == f"#forest-{item.name}"


def test_every_section_has_a_way_back_to_the_contents():
    root = parsed(page())
    assert root.by_id("contents").tag == "nav"
    backs = [a for a in root.all("main")[0].all("a") if a.attributes["href"] == "#contents"]
    assert len(backs) == len(root.all("h2"))


def test_without_scripts_the_form_stays_hidden_and_a_sentence_says_so():
    root = parsed(page())
    assert "hidden" in root.by_id("place-form").attributes
    assert "hidden" in root.by_id("evidence-tools").attributes
    # A class that lays out would show what 'hidden' hides, so the style says it for all.
    assert "[hidden]{display:none!important}" in page()
    assert "needs scripts" in root.all("noscript")[0].text


def _luminance(colour):
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


# WCAG 2.2, 1.4.3 and 1.4.11, with its formula of relative luminance.
@pytest.mark.parametrize("which", [0, 1], ids=["light", "dark"])
def test_words_stand_out_from_their_ground(which):
    named = re.findall(r":root\{([^}]*--ink[^}]*)\}", page())[which]
    colours = dict(re.findall(r"--([\w-]+):(#[0-9a-f]{6})", named))

    def contrast(one, other):
        light, dark = sorted((_luminance(colours[one]), _luminance(colours[other])), reverse=True)
        return (light + 0.05) / (dark + 0.05)

    for ink in ("ink", "dim", "link"):
        assert contrast(ink, "paper") >= 4.5
        assert contrast(ink, "wash") >= 4.5
    assert contrast("mark-ink", "mark") >= 4.5
    assert contrast("whom-ink", "whom") >= 4.5
    assert contrast("paper", "strong") >= 4.5
    assert contrast("focus", "paper") >= 3
    assert contrast("rule", "paper") >= 3
