"""A unit file must use the plan's words, and its dates must run forwards."""

import pytest

from evsyn.terms import Severity
from tests.extraction.builders import UNIT_FILE, line_of


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("strata: {intent: bridge}", "strata: {intent: brigde}",
         "'brigde' is not a level of 'intent' of the plan"),
        ("strata: {intent: bridge}", "strata: {intend: bridge}",
         "'intend' is not a stratum of the plan"),
        ("events: 0, total: 8, of: attempted", "events: 0, total: 8, of: tried",
         "'tried' is not a denominator basis of the plan"),
        ("events: 0, total: 8, of: attempted, window: 30_days",
         "events: 0, total: 8, of: attempted, window: 31_days",
         "'31_days' is not a window of the plan"),
    ],
)  # fmt: skip
def test_an_unknown_word(tiny, old, new, message):
    line = line_of(tiny.folder, UNIT_FILE, old)
    found = [one for one in tiny.unit(old, new).found_in_unit() if one.message == message]
    assert [(one.severity, one.source.line) for one in found] == [(Severity.FAULT, line)]


def test_an_unknown_outcome(tiny):
    text = (tiny.folder / UNIT_FILE).read_text(encoding="utf-8")
    found = tiny.write(UNIT_FILE, text.replace("perforation", "perforatoin")).found_in_unit()
    assert {one.cure for one in found} == {"Did you mean 'perforation'?"}


@pytest.mark.parametrize("level", ["mixed", "not_stated"])
def test_a_group_may_be_mixed_or_not_stated(tiny, level):
    assert tiny.unit("{intent: bridge}", f"{{intent: {level}}}").found_in_unit() == []


def test_two_groups_of_the_same_labels(tiny):
    (finding,) = tiny.unit("{intent: bridge}", "{intent: palliation}").found_in_unit("unit-words")
    assert finding.message == "the groups on lines 16 and 20 have the same labels"


def test_a_period_that_runs_backwards(tiny):
    (finding,) = tiny.unit("{from: 2022-04, to: 2025-03}", "{from: 2025-04, to: 2025-03}"
                           ).found_in_unit("unit-words")  # fmt: skip
    assert finding.message == "the period ends in 2025-03 before it begins in 2025-04"


@pytest.mark.parametrize(
    ("day", "fires"), [("2025-02-28", True), ("2025-03-01", False), ("2025-04-01", False)]
)
def test_figures_frozen_before_the_period_ends(tiny, day, fires):
    found = tiny.unit("frozen_on: 2025-06-30", f"frozen_on: {day}").found_in_unit("unit-words")
    assert bool(found) is fires
