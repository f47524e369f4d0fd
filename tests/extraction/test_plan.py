"""The plan of a review: its two kinds of strata, its search, and its choices."""

import pytest

from evsyn.extraction.plan import EraStratum, LabelledStratum
from evsyn.terms import Better


def test_strata_are_labelled_or_read_from_dates(tiny):
    strata = tiny.read().plan.strata
    assert isinstance(strata["intent"], LabelledStratum)
    assert isinstance(strata["era"], EraStratum)
    assert strata["era"].shift == 2


def test_the_target_basis_and_window_come_first(tiny):
    outcome = tiny.read().plan.outcomes["perforation"]
    assert (outcome.denominators[0], outcome.windows[0]) == ("attempted", "30_days")
    assert outcome.better is Better.FEWER


def test_pooling_choices_have_defaults(tiny):
    pooling = tiny.read().plan.pooling
    assert (pooling.between, pooling.level, pooling.procedures_per_patient) == (
        "dersimonian_laird", 0.95, 1.1,
    )  # fmt: skip


def test_no_search(tiny):
    assert tiny.read().plan.search == "none"


def test_a_search_is_a_list_of_dated_sources(tiny):
    tiny.plan("search: none", "search: [{name: A register, on: 2026-01-03, records: 12}]")
    (source,) = tiny.read().plan.search
    assert (source.name, source.on, source.records) == ("A register", "2026-01-03", 12)


@pytest.mark.parametrize("written", ["search: yes", "search: {name: X}", "search: true", "search:"])
def test_what_is_no_search(tiny, written):
    (finding,) = tiny.plan("search: none", written).found()
    assert finding.message.startswith("'search'")


def test_another_procedure_needs_only_another_plan(tiny):
    for path in tiny.folder.iterdir():
        text = path.read_text(encoding="utf-8")
        tiny.write(path.name, text.replace("perforation", "anastomotic_leak"))
    assert tiny.found() == []
    assert tiny.found_in_unit() == []
    assert "anastomotic_leak" in tiny.read().plan.outcomes
