"""The tables of the answer: what may be quoted of them, and what may not."""

from dataclasses import replace

from evsyn.reporting.page.answers import answer_row
from evsyn.reporting.page.markup import words
from evsyn.wording.pooled import TOO_WIDE
from tests.reporting.page.made import content


def row_of(high):
    """The row of an answer whose interval reaches from nothing up to a height."""
    pooled = content().outcomes[0].overall.pooled
    reading = pooled.answer.reading
    read = replace(reading.pooled, low=0.0, high=high)
    answer = replace(pooled.answer, reading=replace(reading, pooled=read))
    return answer_row(words("All studies"), replace(pooled, answer=answer))


def test_a_number_too_wide_to_quote_says_so_beside_its_digits():
    assert TOO_WIDE in row_of(0.58)[4]
    assert "(0.0-58.0)" in row_of(0.58)[4]
    assert not any(TOO_WIDE in cell for cell in row_of(0.31))
