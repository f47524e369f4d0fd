"""The three layouts, each by an invented record, and files that are none of them.

Layouts: the RIS tag list of its publisher; NLM, MEDLINE/PubMed data element (field) descriptions;
Patashnik O, BibTeXing, 1988 (all three from memory).
"""

from pathlib import Path

import pytest

from evsyn.extraction.references.raw import Layout
from evsyn.extraction.references.read import read_references
from evsyn.terms import Severity

RECORDS = Path(__file__).parent / "records"
LONG_NAME = (
    "Marrowdale and Hollowmere Collaborative Group for the Study of Obstruction of the Large Bowel"
)


def read(name):
    return read_references((RECORDS / name).read_bytes(), name)


def fields(record):
    return record.citation.model_dump(exclude_none=True)


def one(text):
    """Return the fields of the only record of a text that reads without a finding."""
    found = read_references(text, "pasted")
    assert found.findings == ()
    (record,) = found.citations
    return fields(record)


def ris(*lines):
    return "\n".join(("TY  - JOUR", *lines, "ER  - "))


def test_ris():
    (record,) = read("willow.ris").citations
    assert (record.layout, str(record.source)) == (Layout.RIS, "willow.ris, line 1")
    assert fields(record) == {
        "authors": "Willow-Herb HB, Moss JP Jr, for the Nine Valleys Stent Register",
        "title": "Stents for obstructing cancer of the left colon: an invented series",
        "journal": "Ann Marrowdale Surg Circ",
        "year": 2019,
        "pages": "31(2):1005-1013",
        "doi": "10.99999/INVENTED.2019.31",
        "address": "https://example.org/marrowdale/31/2/1005",
    }


def test_older_tags_several_records_and_what_is_not_there():
    first, second = read("older.ris").citations
    assert fields(first) == {
        "authors": "Oxlip Q",
        "title": "TWENTY STENTS IN A SMALL HOSPITAL AND WHAT BECAME OF THEM",
        "journal": "Ember Isles Journal of Obstruction",
        "year": 2004,
        "pages": "9:e12",
        "pmid": "99999993",
    }
    assert second.source.line == 14
    assert fields(second) == {
        "title": "A register of bridges (invented)",
        "note": "Authors, journal, volume and pages not in the RIS record. No DOI or PubMed "
        "number in the RIS record. Accession number 2004987654, of a database not named PubMed. "
        "Year not read from 'in press'.",
    }


def test_pubmed():
    found = read("tansy.nbib")
    (record,) = found.citations
    assert found.findings == ()
    assert fields(record) == {
        "authors": f"Tansy RB, D'Yarrow É, {LONG_NAME}",
        "title": "Perforation after colonic stenting in two neighbouring hospitals: an invented "
        "cohort of ninety patients",
        "journal": "Proc Sallowmark Endosc Guild",
        "year": 2014,
        "pages": "22(4):755-759",
        "doi": "10.99999/invented.2014.22",
        "pmid": "99999991",
    }


def test_bibtex():
    found = read("sorrel.bib")
    first, second = found.citations
    assert found.findings == ()
    assert fields(first) == {
        "authors": "Sörrel J, van der Heath L, Nine Valleys Stent Register, et al.",
        "title": "Covered and uncovered stents, 5% of them removed: an Invented trial with "
        "$p < 0.05$",
        "journal": "Annals of the Marrowdale Surgical Circle",
        "year": 2013,
        "pages": "25(1):12-19",
        "doi": "10.99999/invented_2013",
        "pmid": "99999992",
    }
    assert (second.source.line, second.citation.pages) == (16, "article e77")
    assert second.citation.authors == "Moss H"


@pytest.mark.parametrize("name", ["willow.ris", "older.ris", "tansy.nbib", "sorrel.bib"])
@pytest.mark.parametrize("ends", [b"\r\n", b"\r"])
@pytest.mark.parametrize("encoding", ["utf-8-sig", "utf-16", "cp1252"])
def test_encodings_and_line_ends(name, ends, encoding):
    plain = (RECORDS / name).read_bytes()
    raw = plain.replace(b"\n", ends).decode().encode(encoding)
    expected = read_references(plain, "x").citations
    found = read_references(raw, "x").citations
    assert [fields(record) for record in found] == [fields(record) for record in expected]
    assert [record.source for record in found] == [record.source for record in expected]


def test_a_file_of_several_layouts():
    names = ("willow.ris", "tansy.nbib", "sorrel.bib", "older.ris")
    text = "\n".join((RECORDS / name).read_text(encoding="utf-8") for name in names)
    layouts = [record.layout for record in read_references(text, "x").citations]
    assert layouts == [
        Layout.RIS, Layout.PUBMED, Layout.BIBTEX, Layout.BIBTEX, Layout.RIS, Layout.RIS,
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("lines", "key", "expected"),
    [
        (("T1  - X", "TI  - Y"), "title", "Y"),
        (("TI  - X", "JF  - Full", "JO  - Abbr"), "journal", "Abbr"),
        (("TI  - X", "T2  - Host"), "journal", "Host"),
        (("TI  - X", "PY  - 1998"), "year", 1998),
        (("TI  - X", "Y1  - 2019/05//"), "year", 2019),
        (("TI  - X", "DA  - 2020/01/02/"), "year", 2020),
        (("TI  - X", "SP  - 12-19"), "pages", "pages 12-19"),
        (("TI  - X", "SP  - 1005", "EP  - 13"), "pages", "pages 1005-1013"),
        (("TI  - X", "VL  - 8"), "pages", "volume 8"),
        (("TI  - X", "VL  - 8", "C7  - 138724"), "pages", "8:article 138724"),
        (("TI  - X", "UR  - https://dx.doi.org/10.1000/a%28b%29"), "doi", "10.1000/a(b)"),
        (("TI  - X", "M3  - doi: 10.1000/AbC."), "doi", "10.1000/AbC"),
        (("TI  - X", "N1  - doi: 10.1111/abc"), "doi", "10.1111/abc"),
        (("TI  - X", "AN  - PUBMED 123"), "pmid", "123"),
        (("TI  - X", "PMID- 00123"), "pmid", "123"),
        (("TI  - X", "UR  - https://pubmed.ncbi.nlm.nih.gov/123/"), "pmid", "123"),
        (("TI  - X", "AU  - Reed, A.; Moss, B. C."), "authors", "Reed A, Moss BC"),
    ],
)
def test_variants_of_ris(lines, key, expected):
    assert one(ris(*lines))[key] == expected


@pytest.mark.parametrize(
    ("lines", "key"),
    [
        (("TI  - X", "AN  - 123"), "pmid"),
        (("TI  - X", "AN  - 123", "DB  - Some index"), "pmid"),
        (("TI  - X", "UR  - file:///C:/papers/x.pdf"), "address"),
        (("TI  - X", "DO  - PMC123"), "doi"),
        (("TI  - X", "N1  - Erratum in 10.1000/other"), "doi"),
        (("TI  - X", "N1  - 10.5 months of follow-up"), "doi"),
        (("TI  - X", "ED  - Reed, A."), "authors"),
        (("TI  - X", "PY  - 19"), "year"),
        (("TI  - X", "PMID- PMC12"), "pmid"),
    ],
)
def test_nothing_is_made_up(lines, key):
    assert key not in one(ris(*lines))


def test_single_spaces_and_an_indent_are_read():
    assert one("  TY - JOUR\n  AU - Reed, A\n  TI - X\n  ER -")["authors"] == "Reed A"


def test_a_retracted_paper_is_told():
    note = one("PMID- 1\nTI  - X\nPT  - Retracted Publication")["note"]
    assert "Marked in PubMed as retracted." in note


@pytest.mark.parametrize(
    "title",
    ["=HYPERLINK(1)", "<b>Bold</b> & <i>x</i>", "מחקר על תומכן", "p < 0.05 {x}", "A\\B", "null"],
)
def test_markup_formulas_and_any_script_stay_text(title):
    assert one(ris(f"TI  - {title}"))["title"] == title
    assert one(f"PMID- 1\nTI  - {title}")["title"] == title


@pytest.mark.parametrize(
    ("text", "line", "said"),
    [
        ("Reed A. Stents. J 2019;1:2.", 1, "no record in RIS, PubMed or BibTeX layout"),
        ("", 1, "no record"),
        (b"\x00\x01\x02\x81", 1, "not text that can be read"),
        ("\n\nAU  - Reed A\nTI  - X\n", 3, "could be of a RIS or of a PubMed record"),
        ("\n@article{a, title={X", 2, "the BibTeX record that begins here cannot be read"),
        ("TY  - JOUR\nER  - \n", 1, "says nothing to find a paper by"),
    ],
)
def test_what_cannot_be_read_is_a_fault_with_its_line(text, line, said):
    found = read_references(text, "x.txt")
    (fault,) = found.findings
    assert found.citations == ()
    assert fault.severity is Severity.FAULT
    assert (fault.source.file, fault.source.line) == ("x.txt", line)
    assert said in fault.message


def test_one_bad_entry_does_not_hide_the_next():
    found = read_references("@article{a, title={X\n@article{b, title={Y}}", "x")
    assert [record.citation.title for record in found.citations] == ["Y"]
    assert [finding.source.line for finding in found.findings] == [1]


@pytest.mark.parametrize(
    ("text", "layout"),
    [
        ("AU  - Reed, A\nT1  - X\nPY  - 2019\nER  - ", Layout.RIS),
        ("TY  - JOUR\nTI  - X", Layout.RIS),
        ("FAU - Reed, Alder\nTI  - X\nDP  - 2019", Layout.PUBMED),
    ],
)
def test_a_record_without_its_first_or_last_line_is_a_doubt(text, layout):
    found = read_references(text, "x")
    (doubt,) = found.findings
    (record,) = found.citations
    assert doubt.severity is Severity.DOUBT
    assert record.layout is layout
    assert record.citation.title == "X"


def test_two_records_without_their_first_lines_are_two():
    text = "T1  - X\nPY  - 2019\nER  - \nT1  - Y\nPY  - 2018\nER  - \n"
    found = read_references(text, "x").citations
    assert [(one.citation.title, one.source.line) for one in found] == [("X", 1), ("Y", 4)]


def test_lines_outside_of_records_are_noted():
    found = read_references("Search of May\n\n" + ris("TI  - X"), "x")
    (note,) = found.findings
    assert (note.severity, note.source.line) == (Severity.NOTE, 1)
    assert found.citations[0].source.line == 3


def test_hidden_characters_are_left_out_and_told():
    found = read_references(ris("TI  - X\x07Y"), "x")
    assert found.citations[0].citation.title == "XY"
    assert [finding.source.line for finding in found.findings] == [2]


def test_a_list_of_authors_too_long_for_a_field_ends_in_et_al():
    found = one(ris("TI  - X", *(f"AU  - Reed{number}, A" for number in range(900))))
    assert len(found["authors"]) <= 4000
    assert found["authors"].endswith(", et al.")
    assert "of 900 authors listed." in found["note"]


@pytest.mark.parametrize(
    ("title", "kept"),
    [
        ("A series.", "A series"),
        ("In the U.S.", "In the U.S."),
        ("Why...", "Why..."),
        ("Why?", "Why?"),
    ],
)
def test_the_full_stop_of_a_list_of_references_is_dropped(title, kept):
    assert one(ris(f"TI  - {title}"))["title"] == kept


def test_two_dois_are_told():
    found = one(ris("TI  - X", "DO  - 10.1000/x", "UR  - https://doi.org/10.1000/y"))
    assert found["doi"] == "10.1000/x"
    assert "second DOI, 10.1000/y" in found["note"]


def test_a_list_of_authors_may_be_cut():
    assert one("PMID- 1\nAU  - Reed A\nAU  - et al\nTI  - X")["authors"] == "Reed A et al."
    assert one(ris("AU  - Reed, A", "AU  - Moss, B", "AU  - et al.", "TI  - X"))["authors"] == (
        "Reed A, Moss B, et al."
    )


def test_a_pubmed_record_that_lacks_its_number_alone_is_whole():
    assert one("OWN - INVENTED\nTI  - X\nDP  - 2019")["title"] == "X"


def test_another_record_after_one_that_does_not_end_is_its_own():
    text = "TY  - JOUR\nTI  - X\nPMID- 5\nAU  - Reed, A\n\nPMID- 6\nTI  - Y\nAU  - Moss B\n"
    found = read_references(text, "x")
    assert [(one.citation.pmid, one.citation.authors) for one in found.citations] == [
        ("5", "Reed A"),
        ("6", "Moss B"),
    ]
    assert [finding.severity for finding in found.findings] == [Severity.DOUBT]


def test_authors_under_two_tags_stand_once():
    lines = ("A1  - Reed, A", "A1  - Kim, S", "A1  - Kim, S", "AU  - Reed, A", "AU  - Kim, S")
    assert one(ris("TI  - X", *lines))["authors"] == "Reed A, Kim S, Kim S"


def test_what_of_volume_and_pages_is_not_there():
    note = one(ris("AU  - Reed, A", "TI  - X", "JO  - Y", "PY  - 2019", "VL  - 8"))["note"]
    assert note.startswith("Pages not in the RIS record.")


def test_remarks_between_records_are_passed_over():
    assert one("# invented\n" + ris("TI  - X"))["title"] == "X"


def headless(number, *, own=True):
    """Return a PubMed record whose first line was not copied."""
    lines = [
        "OWN - NLM" if own else "", "STAT- MEDLINE", f"TI  - An invented series, part {number}",
        f"FAU - Reed, Alder{number}", f"AU  - Reed A{number}", "TA  - Ann Marrowdale Surg Circ",
        "DP  - 2019 May", "PG  - 5-9",
    ]  # fmt: skip
    return "\n".join(line for line in lines if line) + "\n"


BIBTEX = "@article{a,\n  author = {Moss, B.},\n  title = {Another {S}eries},\n  year = 2018\n}\n"


@pytest.mark.parametrize("own", [True, False])
@pytest.mark.parametrize("between", ["\n", ""])
@pytest.mark.parametrize("first", [BIBTEX, headless(1), "PMID- 17\n" + headless(1)])
def test_a_record_without_its_number_is_not_lost_behind_another(first, between, own):
    found = read_references(first + between + headless(2, own=own), "pasted")
    titles = [record.citation.title for record in found.citations]
    assert len(titles) == 2
    assert titles[1] == "An invented series, part 2"
    assert found.citations[1].source.line == first.count("\n") + len(between) + 1
    assert found.citations[1].citation.authors == "Reed A2"


def test_three_records_without_their_numbers():
    text = "\n".join(headless(number) for number in (1, 2, 3))
    assert len(read_references(text, "pasted").citations) == 3


def test_a_record_with_blank_lines_between_its_tags_is_one():
    found = read_references("PMID- 17\n\n" + headless(1).replace("\n", "\n\n"), "pasted")
    assert len(found.citations) == 1


def test_a_missing_number_is_said_as_in_the_other_layouts():
    (record,) = read_references(headless(1), "pasted").citations
    assert "No DOI or PubMed number in the PubMed record." in record.citation.note
    assert "not read from" not in record.citation.note
