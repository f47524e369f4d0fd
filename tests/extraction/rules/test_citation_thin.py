"""A paper must be one that a reader can find again."""

import pytest

SEDGE = "citation: {authors: Sedge C, title: Another invented series, year: 2010}"


def real(tiny, citation):
    return tiny.sedge(SEDGE, f"citation: {citation}").sedge("invented: true\n", "")


def test_authors_and_year_alone_are_too_thin(tiny):
    (finding,) = real(tiny, "{authors: Sedge C, year: 2010}").found("citation-thin")
    assert finding.source.key_path == "citation"


@pytest.mark.parametrize("known", ["title: A series", "doi: 10.1000/x", "pmid: 12345"])
def test_a_title_or_a_number_is_enough(tiny, known):
    assert real(tiny, f"{{year: 2010, {known}}}").found("citation-thin") == []


def test_an_invented_paper_needs_authors_only(tiny):
    tiny.sedge(SEDGE, "citation: {authors: Sedge C}")
    assert tiny.found("citation-thin") == []


def test_an_invented_paper_without_anything(tiny):
    assert len(tiny.sedge(SEDGE, "citation: {year: 2010}").found("citation-thin")) == 1
