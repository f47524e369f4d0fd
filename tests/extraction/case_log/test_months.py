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
