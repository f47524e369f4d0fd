"""No letter of a table is cut off at the edge of the terminal."""

import re

import pytest

from evsyn.reporting.plain_table import WIDTH, plain_table

HEADINGS = ("Count of the unit", "Count", "% (exact 95%)", "Ordinary units", "Verdict")
LONG = ("Technical success, bridge to surgery", "14 of 14", "100.0 (76.8-100.0)", "11 to 14 of 14")


@pytest.mark.parametrize(
    "last",
    ["no verdict: three or four studies", "no verdict: other denominator", "within the range"],
)
def test_every_word_is_printed_whole(last):
    made = plain_table(HEADINGS, [(*LONG, last), (*LONG, "within the range")], right=(1,))
    assert all(len(line) <= WIDTH for line in made.split("\n"))
    printed = re.findall(r"[a-z:]+", made)
    for word in last.split():
        assert word in printed


def test_a_table_that_fits_is_as_wide_as_its_words():
    made = plain_table(("A", "B"), [("one", "two")])
    assert max(map(len, made.split("\n"))) < 20
