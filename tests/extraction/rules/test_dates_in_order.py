"""Dates must run forwards."""

import pytest

DATES = "recruited: {from: 1995-03, to: 1999}"


@pytest.mark.parametrize(
    ("first", "last"),
    [("1995-03", "1995"), ("1995", "1995-03"), ("1995-03", "1995-03"), ("1995-03-31", "1995-04-01"),
     ("1995", "2001"), ("1995-03-31", "1995-03"), ("1995", "2001-12-31")],
)  # fmt: skip
def test_dates_in_order(tiny, first, last):
    tiny.reed(DATES, f"recruited: {{from: {first}, to: {last}}}")
    assert tiny.found("dates-in-order") == []


@pytest.mark.parametrize(
    ("first", "last"),
    [("1999", "1995"), ("1995-04", "1995-03"), ("1995-03-02", "1995-03-01"), ("1996", "1995-12")],
)
def test_dates_that_run_backwards(tiny, first, last):
    tiny.reed(DATES, f"recruited: {{from: {first}, to: {last}}}")
    (finding,) = tiny.found("dates-in-order")
    assert finding.message == f"recruitment ends in {last} before it begins in {first}"


def test_recruitment_after_the_paper(tiny):
    tiny.reed(DATES, "recruited: {from: 1995, to: 2002-01}")
    (finding,) = tiny.found("dates-in-order")
    assert finding.message == "recruitment ends in 2002-01, after the paper of 2001"


def test_no_dates_and_no_year(tiny):
    assert tiny.reed(f"  {DATES}\n", "").reed("  year: 2001\n", "").found("dates-in-order") == []


def test_a_paper_read_years_before_it_was_printed(tiny):
    tiny.reed("year: 2001", "year: 2031")
    assert "before it was printed" in tiny.found("dates-in-order")[-1].message
