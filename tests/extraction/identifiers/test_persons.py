"""Where a word is a person's name and where it is not; the persons are invented."""

import pytest

from evsyn.extraction.identifiers.operators import any_role, are_answers, are_roles
from evsyn.extraction.identifiers.person_column import are_persons
from evsyn.extraction.identifiers.persons import has_initials, holds_person, shaped_as_name


@pytest.mark.parametrize(
    "text",
    [
        "Miss Pemberwick", "Sr Pemberwick", "ward sister Smith", "NÉE Vos",
        "Pemberwick J. with leak", "J. Pemberwick", "mary-pemberwick", "Smith's stent",
        "Margaret was at her clinic", "Margaret has no clinic", "Jones", "smithj", "asmith",
        "then discharged with John", "mr pemberwick", "Dr. A. B. Pemberwick", "d/w F.P.",
    ],
)  # fmt: skip
def test_a_person_is_seen(text):
    assert holds_person(text)


@pytest.mark.parametrize(
    "text",
    [
        "Miss rate", "miss Pemberwick", "the sister informed", "sister Pemberwick", "nurse led",
        "MR scan", "MR enterography", "mr spectroscopy", "2 ms later", "St Mary's", "King George",
        "Margaret Hospital", "Margaret Walsh Hospital", "Williams score", "Dr to review", "Plan B.",
        "Smithfield bend", "seen by ITU", "done by SpR", "under Gastro", "Grade C. T. scan",
        "Hollowmere Marrowdale stent was used",
    ],
)  # fmt: skip
def test_other_words_are_not(text):
    assert not holds_person(text)


@pytest.mark.parametrize(
    "text",
    [
        "Pemberwick Fay",
        "Pemberwick, Fay",
        "Fay Ann Pemberwick",
        "PEMBERWICK, FAY J",
        "F Pemberwick",
    ],
)
def test_a_value_has_the_shape_of_a_name(text):
    assert shaped_as_name(text)


@pytest.mark.parametrize(
    "text",
    ["Pemberwick", "Sigmoid Pemberwick", "Pemberwick, leak", "Aa Bb Cc Dd", "Aa 12", "Leak F"],
)
def test_a_value_has_another_shape(text):
    assert not shaped_as_name(text)


def test_initials_stand_by_a_word_of_four_letters():
    assert has_initials("Vosk F")
    assert not has_initials("Vos F")
    assert not has_initials("old Vosk")


@pytest.mark.parametrize(
    ("texts", "told"),
    [
        (["Fay Pemberwick", "Guy Oakhanger", "Ida Dunsfold"], True),
        (["Fay Pemberwick", "Guy Oakhanger"], False),
        (["Fay Pemberwick"] * 3, False),
        (["F.P.", "G.O."], True),
        (["F.P.", "x"], False),
        (["F.P.", "G.O.", "x", "y"], False),
        ([f"Vosk{letter}" for letter in "abcdefgh"], True),
        ([f"Vosk{letter}" for letter in "abcdefg"], False),
        # Four of five unlike is enough, fewer is not.
        ([f"Vosk{letter}" for letter in "abcdefgh"] + ["Voska", "Voskb"], True),
        ([f"Vosk{letter}" for letter in "abcdefgh"] + ["Voska", "Voskb", "Voskc"], False),
    ],
)
def test_names_show_by_the_company_of_their_column(texts, told):
    assert are_persons(texts, about_persons=False, about_things=False) is told


def test_about_persons_three_in_ten_are_enough():
    few = [*["FP", "GO", "ID"], *["7"] * 7]
    assert are_persons(few, about_persons=True, about_things=False)
    assert not are_persons([*few, "7"], about_persons=True, about_things=False)
    assert are_persons(["Vos", *["7"] * 2], about_persons=True, about_things=False)
    assert not are_persons([], about_persons=True, about_things=False)


def test_a_model_with_a_letter_is_no_person():
    models = ["Vosk C", "Vosk D"] * 5
    assert not are_persons(models, about_persons=False, about_things=True)
    assert are_persons(models, about_persons=False, about_things=False)


@pytest.mark.parametrize("text", ["surgeon Pemberwick", "surgeon + Pemberwick", "Pemberwick"])
@pytest.mark.parametrize("roles", [{}, {"surgeon": "surgeon"}])
def test_a_role_with_a_name_is_no_role(text, roles):
    assert not are_roles(["surgeon", text], roles)


@pytest.mark.parametrize("text", ["surgeon", "Surgeon and surgeon", "not known", "n/a", ""])
@pytest.mark.parametrize("roles", [{}, {"surgeon": "surgeon"}])
def test_roles_and_words_for_none_are_taken(text, roles):
    assert are_roles([text], roles)


def test_a_column_of_answers_holds_answers_alone():
    assert are_answers(["yes", "No", "not known", "not stated"])
    assert not are_answers(["yes", "Pemberwick"])
    assert not are_answers([])


def test_one_role_makes_a_column_one_of_operators():
    assert any_role(["Fellow", "FP"], {})
    assert not any_role(["Fellow", "FP"], {"surgeon": "surgeon"})
    assert any_role(["FP", "GI team"], {"gi_team": "GI team"})
