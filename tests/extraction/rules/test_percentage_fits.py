"""The percentage printed beside a count must be one the count can give."""

import pytest

from evsyn.terms import Severity


def printed(tiny, events, total, text):
    tiny.reed("events: 4\n        total: 52\n", f"events: {events}\n        total: {total}\n")
    return tiny.reed('printed: "7.7%"', f'printed: "{text}"')


# Counts and percentages as printed in abstracts; see the tests of percentages for their papers.
@pytest.mark.parametrize(
    ("events", "total", "text"), [(12, 213, "5.6%"), (16, 18, "88.9%"), (6, 61, "9.8%")]
)
def test_percentages_that_fit(tiny, events, total, text):
    assert printed(tiny, events, total, text).found("percentage-fits") == []


def test_a_percentage_no_such_count_gives(tiny):
    (finding,) = printed(tiny, 29, 144, "13.9%").found("percentage-fits")
    assert finding.severity is Severity.DOUBT
    assert finding.message == "the paper prints 13.9%, but 29 of 144 is 20.14%"
    assert finding.cure.startswith("Of 144, 20 would give it; ")


def test_a_percentage_no_count_of_the_total_gives(tiny):
    (finding,) = printed(tiny, 60, 65, "93.4%").found("percentage-fits")
    assert finding.cure.startswith("No count of 65 gives it; ")


def test_many_counts_are_told_as_a_range(tiny):
    (finding,) = printed(tiny, 4, 1000, "7%").found("percentage-fits")
    assert finding.cure.startswith("Of 1000, any from 65 to 74 would give it; ")


def test_a_truncated_percentage_is_a_note(tiny):
    printed(tiny, 62, 69, "89.8%")
    assert tiny.found("percentage-fits") == []
    (finding,) = tiny.found("percentage-truncated")
    assert finding.severity is Severity.NOTE
    assert finding.message == "the paper prints 89.8% without rounding; 62 of 69 is 89.86%"


def test_what_cannot_be_read_is_a_note(tiny):
    (finding,) = printed(tiny, 4, 52, "about a tenth").found("percentage-unread")
    assert finding.severity is Severity.NOTE


def test_a_number_without_quotes_keeps_its_zeros(tiny):
    tiny.reed('printed: "7.7%"', "printed: 7.70")
    (finding,) = tiny.found("percentage-fits")
    assert finding.message == "the paper prints 7.70, but 4 of 52 is 7.69%"


def test_no_percentage(tiny):
    assert tiny.reed('        printed: "7.7%"\n', "").found() == []
