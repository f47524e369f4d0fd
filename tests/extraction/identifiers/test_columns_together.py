"""What values tell only together: runs of numbers, halves of postcodes, pairs in a sentence."""

import pytest

from evsyn.extraction.identifiers.persons import holds_person
from evsyn.extraction.identifiers.record_numbers import are_record_numbers, holds_record_number
from evsyn.extraction.identifiers.split_numbers import split_likenesses
from evsyn.extraction.identifiers.whereabouts import are_districts
from tests.extraction.identifiers.sheets import table


@pytest.mark.parametrize(
    ("texts", "told"),
    [
        (["412907"], True),
        ([], False),
        (["412907", "88121x"], True),
        (["412907", "x", "y"], False),
        (["412907", "730155", "265018", "990412", "990412"], True),
        (["412907", "730155", "265018", "265018", "265018"], False),
        # Numbers that run on reach over less than three times their count.
        (["2024001", "2024004", "2024009"], False),
        (["2024001", "2024004", "2024010"], True),
        (["202401", "202312"], False),
        (["202401", "202313", "412907"], True),
        (["12345", "67890"], False),
    ],
)
def test_numbers_of_six_and_seven_digits_count_together(texts, told):
    assert are_record_numbers(texts) is told


@pytest.mark.parametrize("text", ["9.43E+09", "9.4e+11", "qx123456", "MRN 4071", "mrn: K4071"])
def test_a_record_number_is_seen_in_small_letters_too(text):
    assert holds_record_number(text)


@pytest.mark.parametrize("text", ["1.2E+3", "day 4071", "2024", "12,345,678", "0.12345678"])
def test_a_count_or_measure_is_none(text):
    assert not holds_record_number(text)


@pytest.mark.parametrize(
    ("texts", "told"),
    [
        (["LS1", "LS9", "LS29"], True),
        (["LS1", "LS9"], False),
        (["LS1", "LS2", "LS3"], False),
        (["LS1", "BD2", "HX3"], True),
        (["LS1", "BD2", "HX3", "x", "y"], True),
        (["LS1", "BD2", "HX3", "x", "y", "z"], False),
        (["N0", "N1", "N2"], False),
        (["QQ1", "QQ9", "QQ29"], False),
    ],
)
def test_halves_of_postcodes_count_together(texts, told):
    assert are_districts(texts) is told


@pytest.mark.parametrize(
    "text",
    [
        "Zbigniew Pemberwick rang today",
        "later Zbigniew Pemberwick rang",
        "we saw Zbigniew Pemberwick",
    ],
)
def test_a_pair_of_capitals_in_a_sentence_is_a_person(text):
    assert holds_person(text)


@pytest.mark.parametrize(
    "text",
    [
        "Zbigniew Pemberwick rang",
        "Corvane Flex stent used here",
        "Corvane Flex Was Used In Theatre",
        "we saw Sigmoid Pemberwick",
    ],
)
def test_a_pair_elsewhere_is_not(text):
    # Short texts are left to the company of their column.
    assert not holds_person(text)


@pytest.mark.parametrize(
    ("rows", "parts"),
    [
        ([("94", "34", "765", "919")], 4),
        ([("943", "476", "5919"), ("943", "476", "5918")], 3),
        ([("943", "476", "5919"), ("943", "476", "5918"), ("943", "476", "5917")], 0),
        ([("943", "476", "5919"), ("943", "", "5918")], 3),
        ([("943", "476", "5918")], 0),
    ],
)
def test_half_of_the_rows_must_join_to_a_number(rows, parts):
    columns = {f"Part {place}": part for place, part in enumerate(zip(*rows, strict=True))}
    assert len(split_likenesses(table(columns))) == parts
