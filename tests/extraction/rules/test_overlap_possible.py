"""Patients that may be counted in two studies."""

import pytest

CENTRES = "centres: [Birch Infirmary]"
DATES = "recruited: {from: 2004, to: 2008}"
OVERLAP = "overlaps: [{{study: 2001-reed, kind: {kind}, reason: one author}}]\narms:\n"


def test_a_declared_overlap(tiny):
    tiny.sedge("arms:\n", OVERLAP.format(kind="possible"))
    (finding,) = tiny.found("overlap-possible")
    assert finding.message == "may share patients with 2001-reed: one author"
    assert finding.source.file == "2010-sedge.yaml"


def test_a_certain_overlap_is_settled(tiny):
    tiny.sedge("arms:\n", OVERLAP.format(kind="certain"))
    assert tiny.found("overlap-possible") == []


def test_both_studies_declare_it(tiny):
    tiny.sedge("arms:\n", OVERLAP.format(kind="possible"))
    tiny.reed("arms:\n", OVERLAP.format(kind="possible").replace("2001-reed", "2010-sedge"))
    assert len(tiny.found("overlap-possible")) == 1


def test_one_centre_and_overlapping_dates(tiny):
    tiny.sedge(CENTRES, "centres: [ALDER general]").sedge(
        DATES, "recruited: {from: 1999, to: 2008}"
    )
    (finding,) = tiny.found("overlap-possible")
    assert "same centre (alder general) and overlapping dates" in finding.message


@pytest.mark.parametrize(
    ("centres", "dates"),
    [
        ("centres: [Alder General]", "recruited: {from: 2000-01, to: 2008}"),
        ("centres: [Elder General]", "recruited: {from: 1996, to: 2008}"),
        ("centres: 1", "recruited: {from: 1996, to: 2008}"),
        ("centres: [Alder General]", "recruited_note: the nineties"),
    ],
)
def test_no_alarm(tiny, centres, dates):
    assert tiny.sedge(CENTRES, centres).sedge(DATES, dates).found("overlap-possible") == []


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
    (finding,) = tiny.found("overlap-possible")
    assert finding.message == f"may share patients with 2001-reed: both cite the same {told}"


def test_a_further_report_of_one_study_is_the_paper_of_another(tiny):
    tiny.reed("arms:\n", "reports: [{citation: {doi: 10.1000/x}, adds: follow-up}]\narms:\n")
    tiny.sedge("year: 2010}", "year: 2010, doi: 10.1000/x}")
    assert len(tiny.found("overlap-possible")) == 1


def test_different_papers(tiny):
    tiny.reed("  year: 2001", "  year: 2001\n  doi: 10.1000/x\n  pmid: 1")
    tiny.sedge("year: 2010}", "year: 2010, doi: 10.1000/y, pmid: 2}")
    assert tiny.found("overlap-possible") == []
