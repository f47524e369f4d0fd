"""What BibTeX allows, and what of it is told."""

import pytest

from evsyn.extraction.references.bibtex import bibtex_entries


def reference(body, before=""):
    return list(bibtex_entries(f"{before}@article{{k, {body}}}"))[-1].raw


@pytest.mark.parametrize(
    ("authors", "expected"),
    [
        ("Reed, Alder B.", ("Reed AB",)),
        ("Alder B. Reed", ("Reed AB",)),
        ("Reed, Jr., Alder", ("Reed A Jr",)),
        ("Ludwig van der Heath and Moss, B", ("van der Heath L", "Moss B")),
        ("{Nine Valleys and Tarn Group} and Moss, B", ("Nine Valleys and Tarn Group", "Moss B")),
        (r"M{\"o}ss, J{\'e}r{\^o}me", ("Möss J",)),
        (r"{\O}rsted, {\AA}sa", ("Ørsted Å",)),
        (r"\v{S}edge, Z", ("Šedge Z",)),
        ("Reed AB and Moss CD", ("Reed AB", "Moss CD")),
        ("Reed, A and others", ("Reed A", "et al.")),
        ("王, 小明", ("王 小明",)),
    ],
)
def test_authors(authors, expected):
    assert reference(f"author = {{{authors}}}").authors == expected


def test_values_in_quotes_numbers_and_definitions():
    found = reference('title = "A {T}itle", year = 2019, journal = j', "@string{j = {J Nowhere}}\n")
    assert (found.title, found.year, found.journal) == ("A Title", "2019", "J Nowhere")


def test_round_brackets_and_letter_case():
    (entry,) = bibtex_entries("@ARTICLE(k, TITLE = {X})")
    assert entry.raw.title == "X"


def test_a_field_that_stands_twice_is_told():
    found = reference("title = {X}, title = {Y}")
    assert found.title == "X"
    assert found.remarks == ("The BibTeX record gives 'title' twice; the first is kept.",)


def test_a_value_put_together_from_pieces_is_left_out_and_told():
    found = reference('title = "X" # " and Y", year = 2019')
    assert (found.title, found.year) == ("", "2019")
    assert found.remarks == ("'title' is put together from pieces, and left out.",)


def test_numbers_of_a_later_dialect():
    found = reference("title = {X}, eprint = {123}, eprinttype = {pubmed}, date = {2019-05}")
    assert (found.pmids, found.year) == (("123",), "2019-05")


def test_definitions_and_comments_are_no_records():
    assert list(bibtex_entries("@comment{x}\n@preamble{{x}}\n@string{a = {b}}\nwords")) == []


def test_nothing_is_said_on_the_error_stream(capsys):
    list(bibtex_entries("@article{a, title={X\n@article{b, title={Y}}"))
    assert capsys.readouterr().err == ""
