"""Numbers that only their column tells from measures: days of a spreadsheet, record numbers."""

import pytest

from tests.extraction.identifiers.sheets import AROUND, found_in

#: Days of 2024 as a spreadsheet counts them.
SERIALS = [45368, 45384, 45425, 45447, 45482, 45505]
RECORDS = [1234067, 2233445, 9988776, 5544332, 1212121, 7878787]


@pytest.mark.parametrize(
    ("values", "words"),
    [
        (SERIALS, "full dates"),
        ([str(day) for day in SERIALS], "full dates"),
        ([day + 0.43 for day in SERIALS], "full dates"),
        ([f"2024-W{week}-7" for week in (11, 14, 20, 23)], "full dates"),
        ([f"2024W{week}7" for week in (11, 14, 20, 23)], "full dates"),
        (RECORDS, "hospital numbers"),
        ([f"'{number}" for number in RECORDS], "hospital numbers"),
        ([f"{number // 10000} {number % 10000:04}" for number in RECORDS], "hospital numbers"),
        ([f"12/{number}" for number in RECORDS], "hospital numbers"),
        ([f"{number // 10}A" for number in RECORDS], "hospital numbers"),
    ],
)
def test_they_are_refused_under_any_heading(values, words):
    (found,) = found_in({**AROUND, "Column 5": values})
    assert found.message.startswith('column E ("Column 5") looks like')
    assert words in found.message
    assert not any(str(value) in found.message + found.cure for value in values)


@pytest.mark.parametrize(
    ("heading", "values"),
    [
        # Too few to tell, running on, or spread over more than a working life.
        ("Number", SERIALS[:4]),
        ("Ref", list(range(45001, 45041))),
        ("Cost", [31250, 59980, 44410, 52250, 38100, 47990]),
        ("Platelets", [245000, 310000, 198000, 402000, 156000, 288000]),
        ("Platelets", ["245 000", "310 000", "198 000", "402 000", "156 000"]),
        ("Ref", [f"24{number:03}" for number in range(1, 41)]),
        ("Width", ["22 120", "24 80", "22 90", "24 100", "22 60"]),
        ("Week", ["2024-W11", "2024-W14", "2024-W20", "2024-W23", "2024-W28"]),
    ],
)
def test_measures_and_running_numbers_are_taken(heading, values):
    assert found_in({**AROUND, heading: values}) == ()


def test_who_signed_is_a_person():
    (found,) = found_in({**AROUND, "Signed": ["FP", "GO", "FP", "FP"]})
    assert "names or initials" in found.message
