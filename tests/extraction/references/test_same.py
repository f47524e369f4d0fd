"""Two citations of one paper, found without comparing each with each."""

import pytest

from evsyn.extraction.references.read import read_references
from evsyn.extraction.references.same import duplicates, same_pairs, same_paper
from evsyn.extraction.study import Citation

TITLE = "Stents of the left colon: an invented series"


def cited(**fields):
    return Citation(**fields)


@pytest.mark.parametrize(
    ("one", "other", "reason"),
    [
        ({"doi": "10.1000/AbC"}, {"doi": "https://doi.org/10.1000/aBc"}, "DOI 10.1000/abc"),
        ({"pmid": "123"}, {"pmid": "PMID 0123"}, "PubMed number 123"),
        ({"title": TITLE, "year": 2019}, {"title": f"{TITLE.upper()}.", "year": 2019},
         "title and year"),
        ({"title": TITLE, "year": 2019}, {"title": TITLE, "year": 2020}, "title, a year apart"),
        ({"title": TITLE, "year": 2019}, {"title": TITLE}, "title"),
        ({"title": "Á stent: <i>five</i> words told"}, {"title": "A stent, five words told"},
         "title"),
        ({"title": TITLE, "doi": "10.1000/x"}, {"title": TITLE, "doi": "10.1000/y"},
         "title, under another DOI or PubMed number"),
        ({"title": "Stents", "authors": "Reed A, Moss B"},
         {"title": "Stents", "authors": "Reed AC"}, "title"),
        ({"title": "Stents", "authors": "Di Mitri R"}, {"title": "Stents", "authors": "Mitri R"},
         "title"),
        ({"title": f"{TITLE} of stents", "authors": "Reed A"},
         {"title": f"{TITLE} of stents", "authors": "Riet A"}, "title"),
        ({"title": "Stents for cancer &amp; more of it"},
         {"title": "Stents for cancer & more of it"}, "title"),
        ({"address": "https://example.org/1"}, {"address": "https://example.org/1"},
         "address https://example.org/1"),
    ],
)  # fmt: skip
def test_the_same_paper(one, other, reason):
    assert same_paper(cited(**one), cited(**other)) == reason
    assert same_paper(cited(**other), cited(**one)) == reason


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ({"title": TITLE, "year": 2019}, {"title": TITLE, "year": 2021}),
        ({"title": TITLE}, {"title": f"{TITLE}: reply"}),
        ({"title": "Stents", "authors": "Reed A"}, {"title": "Stents", "authors": "Moss B"}),
        ({"title": "Stents"}, {"title": "Stents"}),
        ({"title": "One two three four five", "authors": "Reed A"},
         {"title": "One two three four five", "authors": "Moss B"}),
        ({"title": "?!"}, {"title": "?!"}),
        ({"doi": "10.1000/x"}, {"doi": "10.1000/x1"}),
        ({"address": "https://example.org/1", "title": "A"},
         {"address": "https://example.org/1", "title": "B"}),
        ({"year": 2019}, {"year": 2019}),
    ],
)  # fmt: skip
def test_another_paper(one, other):
    assert same_paper(cited(**one), cited(**other)) is None
    assert same_paper(cited(**other), cited(**one)) is None


def test_records_are_found_in_a_review_and_among_themselves(tiny):
    tiny.reed("  year: 2001", "  year: 2001\n  doi: 10.1000/x\n  pmid: 5")
    tiny.sedge("arms:\n", "reports: [{citation: {pmid: 7}, adds: more}]\narms:\n")
    text = (
        "PMID- 5\nLID - 10.1000/X [doi]\n\nPMID- 7\nTI  - X\n\nPMID- 8\nTI  - Y\n\nPMID- 8\nTI  - Z"
    )
    records = read_references(text, "x.nbib").citations
    found = duplicates(records, tiny.read())
    assert [(one.record.source.line, one.study, str(one.source), one.reason) for one in found] == [
        (1, "2001-reed", "2001-reed.yaml, line 4", "DOI 10.1000/x"),
        (4, "2010-sedge", "2010-sedge.yaml, line 9", "PubMed number 7"),
        (10, "", "x.nbib, line 7", "PubMed number 8"),
    ]


def test_thousands_of_citations_are_compared_without_comparing_every_pair():
    """Every pair would be twelve million comparisons, and the suite would seem to stand."""
    citations = [
        cited(title=f"{TITLE} number {number}", doi=f"10.1000/{number % 4999}", year=2019)
        for number in range(5000)
    ]
    assert list(same_pairs(citations)) == [(0, 4999, "DOI 10.1000/0")]
