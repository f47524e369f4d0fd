"""An audit as text and as JSON, from files."""

import json
from pathlib import Path

import pytest

from evsyn.extraction.load import read_review, read_unit
from evsyn.reporting.audit_fields import audit_json
from evsyn.reporting.audit_page import SUMMARY_LINES, audit_text
from evsyn.terms import Audience
from tests.extraction.builders import TinyReview


@pytest.fixture
def audited(tmp_path):
    tiny = TinyReview(tmp_path)
    return lambda: (tiny, audit_text(tiny.read(), tiny.read_unit(), Audience.INSIDE))


def test_the_summary_stands_between_ascertainment_and_the_table(audited):
    _, text = audited()
    ascertainment, summary, table = (
        text.index(words) for words in ("20 of 21", "counts, none compared", "Ordinary units")
    )
    assert ascertainment < summary < table
    block = text[:table].rstrip().split("\n\n")[-2]
    assert len(block.splitlines()) <= SUMMARY_LINES


def test_a_whole_whose_levels_are_not_compared_does_not_point_to_them(audited):
    _, text = audited()
    assert "see the levels" not in text
    assert "no verdict" in text


def test_json_says_whether_the_unit_calls_itself_complete(audited):
    tiny, _ = audited()
    tiny.unit("complete: false", "complete: true").unit("count: 21", "count: 30")
    made = json.loads(audit_json(tiny.read(), tiny.read_unit(), Audience.INSIDE))
    assert made["cases"]["says_complete"] is True
    assert made["cases"]["unaccounted"] == 9
    assert made["summary"][0] == "3 counts, none compared."


def test_ranges_name_their_cases_and_wholes_point_to_compared_levels():
    demo = Path(__file__).parents[2] / "studies" / "demo"
    review = read_review(demo)
    checked = read_unit(demo / "unit-hollowmere.yaml", review.plan)
    text = audit_text(review, checked, Audience.INSIDE)
    table = text.split("Count of the unit")[1].split("\n\n")[0]
    for cells in (
        "2 of 33 6.1 (0.7-20.2) 0 to 6 of 33 within the range",
        "3 of 41 7.3 (1.5-19.9) 0 to 9 of 41 within the range",
        "7 of 8 87.5 (47.3-99.7) 4 to 8 of 8 no verdict",
    ):
        assert cells in " ".join(table.split())
