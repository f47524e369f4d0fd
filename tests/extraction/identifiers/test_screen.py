"""All of a file is screened, each column is told once, and a message tells no value."""

from dataclasses import replace
from datetime import date

import pytest

from evsyn.extraction.case_log.raw_table import RawFile, Remark
from evsyn.extraction.identifiers.column_words import column_letter
from evsyn.extraction.identifiers.screen import screen
from tests.extraction.identifiers.sheets import AROUND, ROLES, found_in, table, told


def test_all_columns_are_told_in_their_order_each_once():
    found = found_in(
        {"Ref": ["943 476 5919 Mr Pemberwick 17/03/2024"], **AROUND, "When": [date(2024, 3, 17)]}
    )
    assert [each.message for each in found] == [
        'column A ("Ref") looks like it holds NHS or CHI numbers',
        'column F ("When") looks like it holds full dates',
    ]
    assert [each.cure for each in found] == [
        "Delete the column.",
        "Keep the month alone, as 2024-03.",
    ]
    assert {(each.source.file, each.source.line) for each in found} == {("log.csv", 1)}


def test_other_sheets_are_screened_and_named():
    old = table({"Case": ["1"], "Patient": ["Mr Pemberwick"]}, sheet="Old list")
    (found,) = found_in(AROUND, others=[old])
    assert found.message.startswith('sheet "Old list", column B ("Patient") looks like')


def test_a_sheet_called_after_a_person_is_told_by_its_place_alone():
    first = table({"Case": ["1"]}, sheet="Key")
    second = table({"MRN": ["1"]}, sheet="Mr Pemberwick")
    found = found_in(AROUND, others=[first, second])
    assert found[0].message.startswith('sheet 2 of the others, column A ("MRN")')
    assert found[1].message.startswith("the name of sheet 2 of the others looks like")
    assert "Pemberwick" not in told(found)


def test_the_name_of_the_sheet_that_is_read_is_screened():
    (found,) = screen(RawFile(table(AROUND, sheet="Dr Pemberwick")), ROLES)
    assert "Pemberwick" not in told([found])


@pytest.mark.parametrize(
    ("remark", "words"),
    [
        ("seen by Mr Pemberwick, tel 01632 960983", "names or initials"),
        ("943 476 5919", "NHS or CHI numbers"),
        ("exported 17/03/2024", "full dates"),
    ],
)
def test_remarks_are_screened_and_told_once(remark, words):
    (found,) = found_in(AROUND, remarks=["checked twice", remark, remark])
    assert found.message.startswith(f"the remark on line 1 looks like it holds {words}")
    assert found.cure == "Delete that text."
    assert remark not in told([found])


def test_honest_remarks_are_taken():
    assert found_in(AROUND, remarks=["Months in which the stent was placed", "Log 2024"]) == ()


def test_a_column_without_heading_is_screened():
    (found,) = found_in({"": ["943 476 5919"], **AROUND})
    assert found.message == "column A looks like it holds NHS or CHI numbers"


@pytest.mark.parametrize(
    ("heading", "values"),
    [
        ("943 476 5919", ["9434765919"]),
        ("Mr Pemberwick", ["Mr Pemberwick"]),
        ("Pemberwick, F", ["Oakhanger, G"]),
        ("17/03/2024", ["18/03/2024"]),
        ("K123456", ["K123457"]),
        ("412907", ["88121", "730155", "265018"]),
        ("Patient Pemberwick", ["Mr Oakhanger"]),
        ("Pemberwick", ["Mr Oakhanger"]),
        ("Surgeon Pemberwick", ["Oakhanger"]),
    ],
)
def test_a_heading_that_could_be_a_case_itself_is_not_told(heading, values):
    # Without a line of headings the first case stands in their place.
    (found,) = found_in({heading: values})
    assert found.message.startswith("column A looks like")


@pytest.mark.parametrize(
    ("heading", "values"),
    [
        ("Proceduralist", ["Pemberwick"]),
        ("Auditor", ["FP", "GO"]),
        ("Apellidos", ["x"]),
        ("Person seen by", ["FP", "GO"]),
        ("Site 12", ["ZE9 9ZZ"]),
        ("f" * 40, ["ZE9 9ZZ"]),
    ],
)
def test_a_heading_that_gives_nothing_away_is_told(heading, values):
    (found,) = found_in({heading: values})
    assert found.message.startswith(f'column A ("{heading}") looks like')


@pytest.mark.parametrize("heading", ["Site 123", "f" * 41])
def test_a_long_heading_or_one_of_three_digits_is_not_told(heading):
    (found,) = found_in({heading: ["ZE9 9ZZ"]})
    assert found.message.startswith("column A looks like")


def test_the_line_is_that_of_the_headings_and_a_remark_has_none():
    log = RawFile(
        replace(table({"MRN": ["1"]}), heading_row=3), remarks=(Remark("here", "Mr Pemberwick"),)
    )
    assert [found.source.line for found in screen(log, {})] == [3, 0]


def test_a_very_long_cell_is_read_to_its_end():
    """No pattern goes back and forth over it: 32,767 characters is the most a cell can hold."""
    for piece in ("9", "A.", "a@"):
        found_in({"Note": [(piece * 32767)[:32767]]})


def test_a_hidden_column_is_told_as_hidden():
    log = RawFile(replace(table({"Case": ["1"], "MRN": ["1"]}), hidden=frozenset({1})))
    (found,) = screen(log, ROLES)
    assert found.message.startswith('hidden column B ("MRN") looks like')


def test_a_day_beside_a_month_is_a_full_date():
    months = AROUND["Month"]
    (found,) = found_in({"Month": months, "Day": [1 + n % 31 for n in range(40)]})
    assert found.message == 'column B ("Day") looks like it holds full dates'
    # Of few cases it is the day after the procedure; of days above 31 too.
    assert found_in({"Month": months, "Day": [6, 12]}) == ()
    assert found_in({"Month": months, "Day": list(range(40))}) == ()


def test_nothing_at_all_is_no_finding():
    assert found_in({}) == ()
    assert found_in({"Case": []}) == ()


@pytest.mark.parametrize(
    "rows",
    [
        [("943", "476", "5919"), ("943", "476", "5919"), ("401", "023", "2137")],
        [(943, 476, 5919), (401.0, "023", 2137)],
        [("94347", "65919"), ("40102", "32137")],
    ],
)
def test_a_number_over_neighbouring_columns_is_told_for_each(rows):
    columns = {
        f"Part {place}": list(parts) for place, parts in enumerate(zip(*rows, strict=True), start=1)
    }
    found = found_in({"Case": [str(place) for place, _ in enumerate(rows)], **columns})
    assert len(found) == len(columns)
    assert {each.message.partition("looks")[2] for each in found} == {
        " like it holds NHS or CHI numbers"
    }


def test_measures_side_by_side_are_not_joined():
    assert (
        found_in({"Age": range(61, 95), "Days": range(100, 134), "Cost": range(1250, 1284)}) == ()
    )


def test_a_day_between_month_and_year_is_a_full_date():
    (found,) = found_in({"Day": [17], "Month": [3], "Year": [2024]})
    assert found.message == 'column A ("Day") looks like it holds full dates'
    assert found_in({"Month": [3], "Year": [2024]}) == ()


@pytest.mark.parametrize(
    ("place", "letter"), [(0, "A"), (25, "Z"), (26, "AA"), (51, "AZ"), (701, "ZZ"), (702, "AAA")]
)
def test_columns_are_lettered_as_in_a_spreadsheet(place, letter):
    assert column_letter(place) == letter
