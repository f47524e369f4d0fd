"""One answer as a person writes it, and why another cannot be right."""

import re

import pytest

from evsyn.extraction.starting import answers


@pytest.mark.parametrize("written", ["4/52", "4 / 52", "4 of 52", "4 out of 52", "4 52", " 4/52 "])
def test_a_count_may_be_written_in_several_ways(written):
    assert answers.events_of_total()(written) == (4, 52)


@pytest.mark.parametrize(
    ("read", "written", "why"),
    [
        (answers.events_of_total(), "4", "is not a count"),
        (answers.events_of_total(), "-1/52", "is not a count"),
        (answers.events_of_total(), "0/0", "a share of nobody"),
        (answers.events_of_total(), "5/4", "5 of 4 cannot be"),
        (answers.events_of_total(10), "5/11", "has 10 patients, and the total is 11"),
        (answers.number(1), "0", "at least 1"),
        (answers.number(), "٣", "is not a whole number"),
        (answers.number(), "9999999999", "is not a whole number"),
        (answers.day, "2026-02-30", "write it as 2026-03-02"),
        (answers.span, "1995", "write them as"),
        (answers.span, "1999-12 to 1999-03", "1999-03 is before 1999-12"),
        (answers.name, "two words", "no spaces"),
        (answers.percentage, "some", "is not a percentage"),
        (answers.text, "  ", "something must stand here"),
        (answers.unlike(["all"]), "all", "is there already"),
        (answers.among(["placed", "tried"]), "3", "is none of them"),
        (answers.among(["placed", "tried"]), "plaecd", "Did you mean 'placed'?"),
        (answers.among(["placed", "tried"], used=["placed"]), "1", "'placed' is there already"),
        (answers.day, "05/11/2026", "can be read in two ways"),
        (answers.pmid, "12a", "is not a PubMed number"),
        (answers.doi, "https://doi.org/10.1/x", "holds no DOI"),
        (answers.initials, "?", "holds no letter"),
        (answers.number_and_words(1), "22", "has not the form NAME=WORDS"),
        (answers.number_and_words(1), "0=nobody", "at least 1"),
    ],
)
def test_what_cannot_be_right_is_refused_with_the_reason(read, written, why):
    with pytest.raises(ValueError, match=re.escape(why)):
        read(written)


@pytest.mark.parametrize(
    ("written", "first", "last"),
    [
        ("1995-03 to 1999", "1995-03", "1999"),
        ("1995 - 1999-12", "1995", "1999-12"),
        ("1995–1999", "1995", "1999"),
        ("1999 to 1999-03", "1999", "1999-03"),
        ("1999-05 to 1999", "1999-05", "1999"),
        ("March 1995 to Dec 1999", "1995-03", "1999-12"),
        ("03/1995 to 12/1999", "1995-03", "1999-12"),
    ],
)
def test_two_dates(written, first, last):
    assert answers.span(written) == {"from": first, "to": last}


def test_a_word_is_taken_by_name_before_its_place_in_the_list():
    read = answers.among(["2", "1"])
    assert (read("1"), read("2")) == ("1", "2")
    assert answers.among(["placed", "tried"])("2") == "tried"


def test_several_words_stand_once_each_in_the_order_given():
    assert answers.several(["placed", "tried"])("2, placed, tried") == ["tried", "placed"]


def test_a_short_name_is_made_of_two_words_of_plain_letters():
    assert answers.short("Fern House, St Elsewhere") == "fern-house"
    assert answers.short("Ελλάς") is None


@pytest.mark.parametrize("written", ["two_layer", "two layer", "Two-Layer", "2", "Two layers"])
def test_a_word_is_taken_by_label_and_without_regard_to_case_and_spaces(written):
    read = answers.among({"one_layer": "One layer", "two_layer": "Two layers"})
    assert read(written) == "two_layer"


def test_a_label_that_two_words_share_names_neither():
    with pytest.raises(ValueError, match="is none of them"):
        answers.among({"early": "Leak", "late": "Leak"})("leak")


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("25/11/2026", "2026-11-25"),
        ("25.11.2026", "2026-11-25"),
        ("5 November 2026", "2026-11-05"),
        ("05/05/2026", "2026-05-05"),
    ],
)
def test_a_day_as_people_type_it(written, meant):
    assert answers.day(written) == meant


def test_what_a_paper_is_found_by_is_taken_out_of_an_address():
    assert answers.doi("https://doi.org/10.99999/invented.7") == "10.99999/invented.7"
    assert answers.pmid("https://pubmed.ncbi.nlm.nih.gov/12345/") == "12345"
    assert answers.pmid("PMID: 12345") == "12345"
