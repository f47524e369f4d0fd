"""A follow-up in numbers must fit the period and the day of freezing."""

import pytest

from evsyn.terms import Severity
from tests.extraction.flow.made_up import found, unit

NAME = "unit-followed"


def messages(followed, **fields):
    return [one.message for one in found(unit(followed=followed, **fields), NAME)]


def test_a_median_below_the_least():
    (finding,) = found(unit(followed={"least_days": 60, "median_months": 1}), NAME)
    assert finding.severity == Severity.DOUBT
    assert finding.source.key_path == "followed.median_months"
    assert finding.message == "median follow-up of 1 month, and every case for 60 days"


def test_a_median_longer_than_there_was_time():
    # Four years and two months (2020-01-01 to 2024-03-01) are 50 months.
    assert messages({"median_months": 50.4}) == []
    (message,) = messages({"median_months": 51})
    assert message == (
        "median follow-up of 51 months, and from the first month (2020-01) to the day of freezing "
        "(2024-03-01) it is 50.0 months"
    )


@pytest.mark.parametrize(
    ("least", "frozen", "said"),
    [
        # From the last day of 2023 to 1 March of a leap year: 31 + 29 + 1 = 61 days, by hand.
        (62, "2024-03-01", "61 days after the period ended (2023-12)"),
        (90, "2024-01-01", "1 day after the period ended (2023-12)"),
        (1, "2023-12-31", "0 days after the period ended (2023-12)"),
    ],
)
def test_late_cases_cannot_have_been_followed_so_long(least, frozen, said):
    (finding,) = found(unit(followed={"least_days": least}, frozen_on=frozen), NAME)
    followed = f"every case followed for {least} days"
    assert finding.message == f"{followed}, and the figures were frozen {said}"
    assert finding.source.key_path == "followed.least_days"
    assert finding.cure.startswith(f"Late cases cannot have been followed for {least} days unless")


def test_figures_frozen_within_their_period_are_a_fault_of_another_check():
    made = unit(followed={"least_days": 30}, frozen_on="2023-06-01")
    assert found(made, NAME) == []
    assert "before the period ends" in " ".join(one.message for one in found(made))


@pytest.mark.parametrize(
    ("period", "days"),
    # From 11 December to 1 March of a leap year: 20 + 31 + 29 + 1 = 81 days, by hand.
    [({"from": "2020", "to": "2023"}, 61), ({"from": "2020-01", "to": "2023-12-11"}, 81)],
)
def test_a_period_of_years_or_days(period, days):
    assert messages({"least_days": days, "median_months": 50}, period=period) == []
    (message,) = messages({"least_days": days + 1}, period=period)
    assert f"{days} days after the period ended ({period['to']})" in message


@pytest.mark.parametrize(
    "followed",
    [
        {"least_days": 61},
        {"least_days": 0},
        {"least_days": 30, "median_months": 1},
        {"median_months": 12, "lost": 2},
    ],
)
def test_what_can_be(followed):
    assert messages(followed) == []
    assert found(unit(), NAME) == []
