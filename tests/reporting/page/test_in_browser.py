"""The page as a browser shows it; skipped with a message where there is none."""

import re

import pytest

from evsyn.audit.comparison import compare
from evsyn.cells.cell import Question
from evsyn.pooling.review import answer_questions
from evsyn.terms import Better
from tests.reporting.page.browser import browser, opened
from tests.reporting.page.made import content, page, review
from tests.reporting.page.read_html import parsed

QUESTION = Question("perforation", "intent", "palliation")


@pytest.fixture(scope="module")
def file(tmp_path_factory):
    browser()
    path = tmp_path_factory.mktemp("page") / "report.html"
    path.write_text(page(), encoding="utf-8")
    return path


@pytest.fixture(scope="module")
def root(file):
    return parsed(opened(file, f"#try={QUESTION.key}:12:40"))


def test_a_count_in_the_address_is_placed_with_the_engines_four_digits(root):
    (pooled,) = answer_questions(review(), [QUESTION]).values()
    made = compare(12, 40, pooled.answer, better=Better.FEWER, years=1)
    told = root.by_id("tried")
    each, table = told.all("table")
    cells = {row.all("th")[0].text: row.all("td")[0] for row in table.all("tr")}
    assert {name: cell.attributes["data-chance"] for name, cell in cells.items()} == {
        "Fewer": f"{made.ordinary.below:.4f}",
        "As many": f"{made.ordinary.same:.4f}",
        "More": f"{made.ordinary.above:.4f}",
        "As many or more": f"{made.ordinary.tail_at_least:.4f}",
        "As many or fewer": f"{made.ordinary.tail_at_most:.4f}",
    }
    assert cells["More"].text in ("under 1%", f"{made.ordinary.above:.0%}")
    reach = f"{made.limits.low} to {made.limits.high}"
    assert f"12 of 40 is more than the range of {reach}" in told.text
    assert "look at the cases" in told.text
    rows = [[c.text for c in row.all("th", "td")] for row in each.all("tbody")[0].all("tr")]
    assert rows[0][0] == "All studies"
    assert rows[0][2] == "no verdict: case mix"
    assert ["Intent: palliation", f"{reach} of 40", "more than the range"] in rows


def test_scripts_wake_the_form_the_filter_and_the_sources(root):
    assert "hidden" not in root.by_id("place-form").attributes
    assert "hidden" not in root.by_id("evidence-tools").attributes
    assert len(root.by_id("evidence-outcome").all("option")) == 1 + len(content().outcomes)
    heads = root.by_id("evidence-table").all("thead")[0].all("th")
    assert all(head.all("button") for head in heads)
    for figure in root.all("figure"):
        for drawing in figure.all("div"):
            rows = [one for one in drawing.all("g", "a") if "tabindex" in one.attributes]
            assert [g.attributes["tabindex"] for g in rows].count("0") == 1
            assert all(g.attributes["aria-label"] for g in rows)


def test_a_count_that_cannot_be_is_refused_and_an_unknown_level_is_told(file):
    assert (
        "Type whole numbers" in parsed(opened(file, f"#try={QUESTION.key}:9:8")).by_id("tried").text
    )
    assert "does not hold" in parsed(opened(file, "#try=x/y=z:1:8")).by_id("tried").text


@pytest.mark.parametrize("width", [360, 768, 1280])
def test_nothing_is_wider_than_the_screen(file, width):
    """A second script, which the page's own policy would forbid, measures a copy."""
    measure = """<script>
    const told = [...document.querySelectorAll("body *")]
      .filter((one) => !one.closest("svg") && !one.matches(".skip"))
      .filter((one) => one.getBoundingClientRect().right > innerWidth + 1)
      .map((one) => one.outerHTML.slice(0, 80));
    document.body.dataset.told = `${innerWidth} ${document.documentElement.scrollWidth} ${told}`;
    </script>"""
    free = re.sub(r'<meta http-equiv="Content-Security-Policy"[^>]+>', "", page())
    for short in (">Foxglove 2002<", ">within 30 days<", ">Perforation<"):
        free = free.replace(short, f">{'W' * 150}<")
    framed = file.parent / f"measured-{width}.html"
    framed.write_text(free.replace("</body>", f"{measure}</body>"), encoding="utf-8")
    body = parsed(opened(framed, f"#try={QUESTION.key}:12:40", width=width)).all("body")[0]
    inner, scroll, wide = body.attributes["data-told"].split(" ", 2)
    assert int(scroll) <= int(inner)
    assert wide == ""
