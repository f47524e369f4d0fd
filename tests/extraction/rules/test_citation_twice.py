"""One paper must not stand in a review as two studies."""

import pytest

REED_TITLE, SEDGE_TITLE = "title: An invented series", "title: Another invented series"
LONG = "title: 'Stents of the left colon: an invented series'"


@pytest.mark.parametrize(
    ("one", "other", "told"),
    [
        ("doi: 10.1000/AbC", "doi: 10.1000/aBc", "DOI 10.1000/abc"),
        ("pmid: 123", "pmid: 123", "PubMed number 123"),
    ],
)
def test_one_paper_in_two_files(tiny, one, other, told):
    tiny.reed("  year: 2001", f"  year: 2001\n  {one}").sedge(
        "year: 2010}", f"year: 2010, {other}}}"
    )
    (finding,) = tiny.found("citation-twice")
    assert finding.message == f"cites the same paper as 2001-reed: {told}"
    assert finding.is_open
    assert (finding.source.file, finding.source.key_path) == ("2010-sedge.yaml", "citation")


@pytest.mark.parametrize(
    ("year", "told"),
    [(2010, "title and year"), (2009, "title, a year apart"), (2011, "title, a year apart")],
)
def test_one_title_in_years_no_more_than_one_apart(tiny, year, told):
    tiny.reed(REED_TITLE, LONG).reed("  year: 2001", f"  year: {year}")
    tiny.sedge(SEDGE_TITLE, "title: 'STENTS of the left colon - an invented series'")
    (finding,) = tiny.found("citation-twice")
    assert finding.message.endswith(f": {told}")


def test_one_title_years_apart_is_another_paper(tiny):
    tiny.reed(REED_TITLE, LONG).sedge(SEDGE_TITLE, LONG)
    assert tiny.found("citation-twice") == []


def test_a_further_report_of_one_study_is_the_paper_of_another(tiny):
    tiny.sedge("arms:\n", "reports: [{citation: {doi: 10.1000/x}, adds: follow-up}]\narms:\n")
    tiny.reed("  year: 2001", "  year: 2001\n  doi: 10.1000/x")
    (finding,) = tiny.found("citation-twice")
    assert finding.source.key_path == "reports.0.citation"


def test_two_files_are_told_once(tiny):
    both = "doi: 10.1000/x, pmid: 5"
    tiny.reed("arms:\n", f"reports: [{{citation: {{{both}}}, adds: follow-up}}]\narms:\n")
    tiny.reed("  year: 2001", "  year: 2001\n  doi: 10.1000/x")
    tiny.sedge("year: 2010}", f"year: 2010, {both}}}")
    assert len(tiny.found("citation-twice")) == 1


@pytest.mark.parametrize("kind", ["possible", "certain"])
def test_a_declared_overlap_says_it_already(tiny, kind):
    tiny.reed("  year: 2001", "  year: 2001\n  pmid: 123")
    tiny.sedge("year: 2010}", "year: 2010, pmid: 123}")
    tiny.sedge("arms:\n", f"overlaps: [{{study: 2001-reed, kind: {kind}, reason: x}}]\narms:\n")
    assert tiny.found("citation-twice") == []


def test_two_studies_of_one_paper_are_answered(tiny):
    tiny.reed("  year: 2001", "  year: 2001\n  pmid: 123")
    tiny.sedge("year: 2010}", "year: 2010, pmid: 123}")
    tiny.sedge(
        "arms:\n",
        "answers: [{rule: citation-twice, at: citation, reason: two cohorts, by: XY, "
        "on: 2026-01-06}]\narms:\n",
    )
    (finding,) = tiny.found("citation-twice")
    assert finding.answer is not None and not finding.is_open


def test_one_paper_twice_within_a_study_counts_nobody_twice(tiny):
    tiny.reed("  year: 2001", "  year: 2001\n  pmid: 123")
    tiny.reed("arms:\n", "reports: [{citation: {pmid: 123}, adds: follow-up}]\narms:\n")
    assert tiny.found("citation-twice") == []


def test_different_papers(tiny):
    tiny.reed("  year: 2001", "  year: 2001\n  doi: 10.1000/x\n  pmid: 1")
    tiny.sedge("year: 2010}", "year: 2010, doi: 10.1000/y, pmid: 2}")
    assert tiny.found("citation-twice") == []
