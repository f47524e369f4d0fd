"""Every paper is accounted for, and its address stands in its reference once."""

import pytest

from tests.reporting.page.made import content, page, review
from tests.reporting.page.read_html import parsed


def test_every_study_is_counted_left_out_or_silent_for_each_outcome():
    table = parsed(page()).by_id("search").all("table")[0]
    rows = [[c.text for c in row.all("th", "td")] for row in table.all("tbody")[0].all("tr")]
    assert [row[0] for row in rows] == [item.label for item in content().outcomes]
    for row, item in zip(rows, content().outcomes, strict=True):
        numbers = [int(cell) for cell in row[1:]]
        assert sum(numbers) == len(review().studies)
        assert numbers[0] == item.overall.pooled.answer.k


def test_the_search_is_told_source_by_source():
    told = parsed(page()).by_id("search").text
    for source in review().plan.search:
        assert source.name in told
        assert source.on in told


@pytest.mark.slow
def test_no_reference_prints_its_address_twice():
    for point in parsed(page("published")).by_id("references").all("li"):
        for link in point.all("a"):
            # A study without authors is named by its number in PubMed, before the colon.
            assert point.text.partition(": ")[2].count(link.text) == 1


def test_what_is_not_to_be_said_stands_on_the_page():
    told = parsed(page()).by_id("unsaid").text
    assert "Not to be said of perforation" in told
    assert "no search finds all" in told
