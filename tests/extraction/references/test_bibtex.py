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
        ("Alder REED", ("REED A",)),
        ("Reed A, Moss B, Larch C", ("Reed A, Moss B, Larch C",)),
        ("Reed, Alder, Moss", ("Reed, Alder, Moss",)),
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


@pytest.mark.parametrize(
    "title",
    ['"X" # " and Y"', "{X} # j", "j # {X}", "unknown", "{X}\n number = 2", '"X" number = 2'],
)
def test_a_value_that_is_not_one_is_left_out_and_told(title):
    found = reference(f"title = {title}, year = 2019", "@string{j = {J}}\n")
    assert (found.title, found.year) == ("", "2019")
    (said,) = found.remarks
    assert said.startswith("'title' is left out: ")


@pytest.mark.parametrize("title", ['{C# "sharp" # x}', '"a {"}quoted{"} # word"', "{{X} and {Y}}"])
def test_a_value_that_is_one_is_kept(title):
    assert reference(f"title = {title}").remarks == ()


def test_numbers_of_a_later_dialect():
    assert reference("title = {X}, subtitle = {Y}").title == "X: Y"
    found = reference("title = {X}, eprint = {123}, eprinttype = {pubmed}, date = {2019-05}")
    assert (found.pmids, found.year) == (("123",), "2019-05")


def test_definitions_and_comments_are_no_records():
    assert list(bibtex_entries("@comment{x}\n@preamble{{x}}\n@string{a = {b}}\nwords")) == []


def test_nothing_is_said_on_the_error_stream(capsys):
    list(bibtex_entries("@article{a, title={X\n@article{b, title={Y}}"))
    assert capsys.readouterr().err == ""


def test_two_entries_may_use_one_definition():
    text = "@string{j = {J {N}}}\n@article{a, journal = j}\n@article{b, journal = J}"
    assert [entry.raw.journal for entry in bibtex_entries(text)] == ["J N", "J N"]
