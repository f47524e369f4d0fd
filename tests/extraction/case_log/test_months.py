"""Months, in the ways logs write them."""

from datetime import date, datetime

import pytest

from evsyn.extraction.case_log.months import month_of


@pytest.mark.parametrize(
    "value",
    [
        "2024-03", "2024/3", "2024.03", "03/2024", "3-2024", "Mar 2024", "march 2024", "MAR-24",
        "Mar. 2024", "2024-03-01", "2024-03-01T00:00:00", date(2024, 3, 1), datetime(2024, 3, 1),
    ],
)  # fmt: skip
def test_what_is_a_month(value):
    assert month_of(value) == "2024-03"


@pytest.mark.parametrize(
    "value",
    [
        None, "", "2024", "2024-13", "2024-00", "17/03/2024", "2024-03-17", "Ma 2024", "Ju 24",
        "March", 45352, 3.5, True, date(2024, 3, 2), "1824-03", "soon",
    ],
)  # fmt: skip
def test_what_is_not(value):
    assert month_of(value) is None


def test_september_has_two_short_forms():
    assert month_of("Sep 2024") == month_of("Sept 2024") == "2024-09"


@pytest.mark.parametrize(
    ("written", "month"),
    [
        # German, French, Spanish and Italian short and long forms, from memory.
        ("Mrz 24", "2024-03"), ("März 2024", "2024-03"), ("Jän. 24", "2024-01"),
        ("Okt 2024", "2024-10"), ("Dez. 24", "2024-12"), ("Mai 2024", "2024-05"),
        ("févr. 2024", "2024-02"), ("août 24", "2024-08"), ("juil. 2024", "2024-07"),
        ("déc. 2024", "2024-12"), ("ene 2024", "2024-01"), ("ago 2024", "2024-08"),
        ("dic-24", "2024-12"), ("septiembre 2024", "2024-09"), ("gen 2024", "2024-01"),
        ("mag 24", "2024-05"), ("lug 2024", "2024-07"), ("set 2024", "2024-09"),
        ("ott 2024", "2024-10"), ("giu 2024", "2024-06"),
    ],
)  # fmt: skip
def test_months_of_other_languages(written, month):
    assert month_of(written) == month


@pytest.mark.parametrize("written", ["jui 2024", "Quintember 2024", "ma 24"])
def test_what_could_be_two_months_is_none(written):
    # French "jui" is June or July.
    assert month_of(written) is None
