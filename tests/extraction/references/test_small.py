"""Names, pages, DOI, PubMed numbers and accents, one by one."""

import doctest

import pytest

from evsyn.extraction.references import found_by, latex, names, pages
from evsyn.extraction.references.found_by import addresses_in, doi_in, pmid_in
from evsyn.extraction.references.latex import plain
from evsyn.extraction.references.names import listed, person
from evsyn.extraction.references.pages import full_span, volume_issue_pages


@pytest.mark.parametrize("module", [found_by, latex, names, pages])
def test_examples(module):
    tried = doctest.testmod(module)
    assert tried.attempted and not tried.failed


@pytest.mark.parametrize(
    ("printed", "written"),
    [
        ("Reed, A.B.", "Reed AB"),
        ("Reed,Alder,III", "Reed A III"),
        ("van der Heath, Élise", "van der Heath É"),
        ("D'Ambra, Lia", "D'Ambra L"),
        ("Reed, Wei-Min", "Reed WM"),
        ("Reed A.B.", "Reed AB"),
        ("REED, ALDER", "REED A"),
        ("Alder Reed", "Alder Reed"),
        ("World Bowel Organisation,", "World Bowel Organisation"),
        ("Department of Surgery, Alder Hospital", "Department of Surgery, Alder Hospital"),
        ("et al", "et al."),
        ("Reed A, Moss B, Larch CD", "Reed A, Moss B, Larch CD"),
        ("Reed A.B., Moss B.", "Reed AB, Moss B"),
        ("רופא, דנה", "רופא דנה"),
    ],
)
def test_persons(printed, written):
    assert person(printed) == written


def test_et_al_stands_last_and_two_persons_may_be_written_alike():
    assert listed(["et al.", "Reed A", "Reed A", ""]) == ("Reed A", "Reed A", "et al.")
    assert listed(["et al."]) == ()


@pytest.mark.parametrize(
    ("printed", "written"),
    [
        ("1005-13", "1005-1013"),
        ("755–9", "755-759"),
        ("12--19", "12-19"),
        ("199-05", "199-05"),
        ("1174-6; discussion 1177-9", "1174-1176; discussion 1177-1179"),
        ("S12-S15", "S12-S15"),
        ("12", "12"),
    ],
)
def test_last_pages_are_written_in_full(printed, written):
    assert full_span(printed) == written


@pytest.mark.parametrize(
    ("parts", "written"),
    [
        (("12", "9", "1-3", ""), "12(9):1-3"),
        (("", "2", "415-421", ""), "(2):415-421"),
        (("47", "1", "", ""), "47(1)"),
        (("", "", "415-421", ""), "pages 415-421"),
        (("", "", "57", ""), "page 57"),
        (("", "", "", "138724"), "article 138724"),
        (("Vol. 12", "No. 3", "pp. 4-9", ""), "12(3):4-9"),
        (("", "", "", ""), ""),
    ],
)
def test_volume_issue_and_pages(parts, written):
    assert volume_issue_pages(*parts) == written


@pytest.mark.parametrize(
    ("text", "doi"),
    [
        ("doi:10.1000/x.", "10.1000/x"),
        ("(10.1000/x)", "10.1000/x"),
        # The example of a DOI made of a serial item number, of ANSI/NISO Z39.84 (from memory).
        ("10.1002/(SICI)1097-4571(199601)47:1<1::AID-ASI1>3.0.CO;2-D",) * 2,
        ("10.1000", ""),
        ("11.1000/x", ""),
    ],
)
def test_dois(text, doi):
    assert doi_in(text) == doi


@pytest.mark.parametrize(
    ("text", "pmid"),
    [("123", "123"), ("PMID: 00123", "123"), ("PMC123", ""), ("123456789", ""), ("L123", "")],
)
def test_pubmed_numbers(text, pmid):
    assert pmid_in(text) == pmid


def test_addresses_lead_others_to_the_paper():
    texts = ["https://doi.org/10.1000/x", "file:///x.pdf", "see http://example.org/a;b=1 and."]
    assert addresses_in(texts) == ["http://example.org/a;b=1"]


@pytest.mark.parametrize(
    ("written", "read"),
    [
        (r"\'{e}\c{c}{\ss}\o", "éçßø"),
        (r"{\i}", "ı"),
        (r"5\% of {USA} \& more", "5% of USA & more"),
        (r"\emph{in vitro} -- ``so''", "in vitro – “so”"),
        (r"an \unheard{word} stays", r"an \unheardword stays"),
        (r"$\alpha_1 < 2$", r"$\alpha_1 < 2$"),
        ("5% bare", "5% bare"),
    ],
)
def test_accents(written, read):
    assert plain(written) == read
