"""From five studies to two hundred, one page of at most 2 MB."""

from dataclasses import replace

import pytest

from evsyn.reporting.page import page_html
from evsyn.reporting.report.content import report_content
from tests.reporting.page.made import page, review
from tests.reporting.page.read_html import parsed

MOST = 2_000_000


def copied(number):
    """Return the demo review with its studies copied under other names until there are so many."""
    found = review()
    studies = []
    for place in range(number):
        study = found.studies[place % len(found.studies)]
        turn = place // len(found.studies)
        name = f"{study.study}-{turn}" if turn else study.study
        authors = f"{study.citation.authors} {turn}" if turn else study.citation.authors
        cited = study.citation.model_copy(update={"authors": authors})
        studies.append(study.model_copy(update={"study": name, "citation": cited, "overlaps": []}))
    return replace(found, studies=tuple(studies))


@pytest.mark.parametrize("number", [5, pytest.param(200, marks=pytest.mark.slow)])
def test_a_page_of_so_many_studies_is_whole_and_small(number):
    document = page_html(report_content(copied(number)))
    assert len(document.encode("utf-8")) <= MOST
    root = parsed(document)
    assert len(root.by_id("references").all("li")) == number
    figures = [figure.attributes["id"] for figure in root.all("figure")]
    assert sum("-by-" not in name for name in figures) == 5


@pytest.mark.slow
def test_a_page_of_the_published_studies_is_small():
    assert len(page("published").encode("utf-8")) <= MOST
    assert len(parsed(page("published")).by_id("references").all("li")) == 63


def test_a_drawing_that_has_no_room_is_said_to_be_missing(monkeypatch):
    held = report_content(copied(12))
    most = "evsyn.reporting.page.document.MOST_BYTES"
    monkeypatch.setattr(most, 0)
    bare = page_html(held)
    assert not parsed(bare).all("figure")
    monkeypatch.setattr(most, len(bare.encode("utf-8")) + 80_000)
    root = parsed(page_html(held))
    assert 0 < len(root.all("figure")) < 5
    assert "so that the page stays small" in root.by_id("outcomes").text
