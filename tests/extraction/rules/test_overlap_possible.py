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
