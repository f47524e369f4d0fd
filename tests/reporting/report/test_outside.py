"""Products for outside are the same for every count that is told alike."""

from dataclasses import replace
from pathlib import Path

import pytest

from evsyn.audit import unit_audit as auditing
from evsyn.extraction.load import read_review, read_unit
from evsyn.reporting.report.content import report_content
from evsyn.reporting.report.products import product_files
from evsyn.terms import Audience

DEMO = Path(__file__).parents[3] / "studies" / "demo"
REVIEW = read_review(DEMO)
UNIT = read_unit(DEMO / "unit-hollowmere.yaml", REVIEW.plan)


def with_perforations(first, second):
    """Return the unit with other counts of perforation in its first two groups."""
    unit = UNIT.unit.model_copy(deep=True)
    for group, events in zip(unit.groups, (first, second), strict=False):
        counts = group.outcomes
        counts["perforation"] = counts["perforation"].model_copy(update={"events": events})
    return replace(UNIT, unit=unit)


@pytest.mark.parametrize("kind", ["page", "slides", "pocket"])
def test_what_is_told_alike_is_written_alike(kind, monkeypatch):
    answers = auditing.unit_answers(REVIEW, UNIT.unit)
    monkeypatch.setattr(auditing, "unit_answers", lambda *_: answers)
    # Three, two and seven perforations of 41 are all told as between one and seven.
    made = [
        product_files(kind, report_content(REVIEW, with_perforations(*counts), Audience.OUTSIDE))
        for counts in ((2, 0), (0, 1), (4, 2))
    ]
    assert made[0] == made[1] == made[2]
    told = report_content(REVIEW, with_perforations(9, 0), Audience.OUTSIDE)
    assert product_files(kind, told) != made[0]
