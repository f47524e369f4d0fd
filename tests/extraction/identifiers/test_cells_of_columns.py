"""One cell that tells is enough, and the rest of its column may stay; places tell by postcodes."""

import pytest

from evsyn.extraction.identifiers.operators import roles_in
from tests.extraction.identifiers.sheets import AROUND, ROLES, found_in, told

RUNNING = [f"S{number:02d}" for number in range(1, 40)]


@pytest.mark.parametrize("number", ["4567821", "456782", "RXH4567821", "45678213", "2456782139"])
def test_one_hospital_number_among_running_references_is_refused(number):
    (found,) = found_in({**AROUND, "Ref": [*RUNNING, number]})
    assert found.message == (
        'one cell or more of column E ("Ref") looks like it holds hospital numbers or other long '
        "record numbers"
    )
    assert found.cure.startswith("Clear those cells")
    assert number not in told([found])


@pytest.mark.parametrize("heading", ["Ref", "Case no.", "ID", "Our number", "Thing"])
def test_so_is_one_among_running_numbers(heading):
    (found,) = found_in({heading: [*map(str, range(1, 40)), "4567821"]})
    assert "hospital numbers" in found.message


@pytest.mark.parametrize(
    ("heading", "values"),
    [
        ("Cost", ["950", "1250", "45120", "125750", "1310", "87", "4410", "15000"]),
        ("Ref", [f"S{number}" for number in range(1, 400)]),
        ("Ref", [str(number) for number in range(2024001, 2024040)]),
        ("Area", ["north", "coast", "valley", "north"]),
        ("Area of the stricture", ["1250", "1410", "1550", "2310"]),
        ("Stent area", ["1250", "1410", "1550", "2310"]),
        ("District", ["1", "2", "3", "4"]),
    ],
)
def test_what_only_looks_like_it_is_taken(heading, values):
    assert found_in({**AROUND, heading: values}) == ()


@pytest.mark.parametrize(
    ("heading", "values"),
    [
        ("Area", [str(number) for number in range(1010, 1050)]),
        ("Wohnort", ["80331", "80333", "80335"]),
        ("Town", ["A-1010", "A-1020"]),
        ("Area", ["S1", "S2", "B15", "M4"]),
        ("District", ["ZE1", "KW15"]),
        ("PLZ", ["x"]),
        ("Código postal", ["x"]),
    ],
)
def test_a_column_of_places_may_hold_no_postcodes(heading, values):
    (found,) = found_in({heading: values})
    assert "postcodes" in found.message
    assert found.cure == "Delete the column."


def test_a_name_in_one_cell_spares_the_column():
    (found,) = found_in({**AROUND, "Site": ["sigmoid", "rectum"] * 19 + ["Mrs Novak rectum"]})
    assert found.message == (
        'one cell or more of column E ("Site") looks like it holds names or initials of persons'
    )
    assert "rest of it may stay" in found.cure
    assert "Novak" not in told([found])


def test_a_date_in_one_cell_keeps_its_cure():
    (found,) = found_in({**AROUND, "When": ["2024-03"] * 19 + ["17/03/2024"]})
    assert found.message.startswith("one cell or more of column E")
    assert found.cure == "Keep the month alone, as 2024-03."


@pytest.mark.parametrize(
    ("heading", "values"),
    [
        ("Site", ["Mrs Novak", "Mr Pemberwick", "rectum"]),
        ("Patient", ["FP", "GO", "HA", "Mr Pemberwick"]),
        ("Surname", ["x", "y", "Mr Pemberwick"]),
    ],
)
def test_a_column_that_tells_as_a_whole_goes_as_a_whole(heading, values):
    (found,) = found_in({heading: values})
    assert found.message.startswith("column A")
    assert found.cure == "Delete the column."


def test_the_log_s_own_words_for_roles_are_roles():
    columns = {"Operator": ["GI", "Surg", "surgeon"] * 9}
    assert found_in(columns)
    words = {"GI": "gastroenterologist", "surg": "Surgeon", "TTS": "through_the_scope"}
    assert found_in(columns, words=words) == ()
    assert found_in({"Operator": ["GI", "TTS"]}, words=words)


@pytest.mark.parametrize(
    "words",
    [
        {"Mr Pemberwick": "surgeon"},
        {"Smith": "surgeon"},
        {"FP": "surgeon", "GO": "surgeon", "HA": "surgeon"},
        {"Pemberwick": "surgeon", "Oakhanger": "surgeon", "Alderbank": "surgeon"},
        {"GI": "somebody"},
    ],
)
def test_a_name_is_no_word_for_a_role(words):
    assert roles_in(words, ROLES) == {}
    assert found_in({"Operator": [*words, "surgeon"]}, words=words)


def test_many_words_for_one_role_leave_those_for_another():
    words = {"A": "surgeon", "B": "surgeon", "C": "surgeon", "GI": "gi_team"}
    assert roles_in(words, ROLES) == {"GI": "gi_team"}


@pytest.mark.parametrize("word", ["JS", "MO", "Przybylski", "J S", "K. Vrba", "Team of Vrba"])
def test_initials_and_rare_names_stand_for_no_role(word):
    assert roles_in({word: "surgeon"}, {"surgeon": "surgeon"}) == {}


@pytest.mark.parametrize(
    ("word", "role"),
    [
        ("Surg", "surgeon"),
        ("Rad", "radiologist"),
        ("GI", "gastroenterologist"),
        ("IR", "radiologist"),
    ],
)
def test_short_forms_of_a_role_do(word, role):
    assert roles_in({word: role}, {role: role}) == {word: role}


def test_a_word_of_a_longer_role_stands_for_it():
    roles = {"night_team": "doctors of the night team"}
    assert roles_in({"Night": "night_team"}, roles) == {"Night": "night_team"}
    assert roles_in({"Vrba": "night_team"}, roles) == {}
