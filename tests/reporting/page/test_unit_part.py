"""The unit's part: in full inside, and outside nothing that gives a hidden count back."""

from dataclasses import replace
from functools import cache

import pytest

from evsyn.extraction.load import read_unit
from evsyn.reporting.page import page_html
from evsyn.reporting.report.content import report_content
from evsyn.terms import Audience
from evsyn.wording.numbers import count
from tests.reporting.page.made import UNIT_FILE, review, unit_page
from tests.reporting.page.read_html import parsed

CHECKED = read_unit(UNIT_FILE, review().plan)


def with_events(outcome, events, **fields):
    """Return the unit with other counts of one outcome, group by group."""
    groups = []
    for group, number in zip(CHECKED.unit.groups, events, strict=True):
        held = group.outcomes[outcome].model_copy(update={"events": number})
        groups.append(group.model_copy(update={"outcomes": {**group.outcomes, outcome: held}}))
    unit = CHECKED.unit.model_copy(update={"groups": groups, **fields})
    return replace(CHECKED, unit=unit)


@cache
def outside(events):
    checked = with_events("perforation", events)
    return page_html(report_content(review(), checked, Audience.OUTSIDE))


def test_hidden_counts_that_are_told_alike_give_the_very_same_page():
    groups = [group.outcomes["perforation"].events for group in CHECKED.unit.groups]
    moved = [*groups]
    moved[0], moved[1] = groups[0] + 1, groups[1] + 1
    assert sum(groups) >= 1 and sum(moved) <= 7
    assert outside(tuple(groups)) == outside(tuple(moved))


def test_a_count_told_exactly_does_change_it():
    none = tuple(0 for _ in CHECKED.unit.groups)
    groups = tuple(group.outcomes["perforation"].events for group in CHECKED.unit.groups)
    assert outside(none) != outside(groups)


def test_outside_no_level_no_date_and_no_file_of_the_unit_appears():
    document = unit_page(Audience.OUTSIDE)
    unit = CHECKED.unit
    assert unit.period.from_ not in document
    assert unit.frozen_on not in document
    assert UNIT_FILE.name not in document
    for figure in parsed(document).all("figure"):
        if figure.attributes["id"].startswith("forest-"):
            assert unit.label not in figure.text
    for group in unit.groups:
        held = group.outcomes["perforation"]
        assert count(held.events, held.total) not in parsed(document).by_id("unit").text


def test_inside_every_count_stands_in_full():
    part = parsed(unit_page(Audience.INSIDE)).by_id("unit")
    rows = part.all("table")[0].all("tbody")[0].all("tr")
    assert len(rows) > len(review().plan.outcomes)
    assert "expected are counted" in part.text
    assert CHECKED.unit.period.from_ in part.text
    drawn = [f.text for f in parsed(unit_page(Audience.INSIDE)).all("figure")]
    assert any(CHECKED.unit.label in text for text in drawn)


def test_inside_the_main_outcomes_have_their_count_strips_and_outside_none():
    primary = review().plan.audit.primary.outcome
    inside = parsed(unit_page(Audience.INSIDE)).all("figure")
    strips = [f for f in inside if f.attributes["id"].startswith("strip-")]
    assert 1 < len(strips) <= 4
    assert strips[0].attributes["id"] == f"strip-{primary}"
    for one in strips:
        links = [a for box in one.all("div") for a in box.all("a")]
        assert links
        assert {a.attributes["href"] for a in links} == {"#unit"}
        assert all(UNIT_FILE.name in a.all("title")[0].text for a in links)
    assert not [f for f in parsed(unit_page(Audience.OUTSIDE)).all("figure")
                if f.attributes["id"].startswith("strip-")]  # fmt: skip


@pytest.mark.parametrize("audience", Audience)
def test_targets_of_the_plan_are_drawn(audience):
    names = {figure.attributes["id"] for figure in parsed(unit_page(audience)).all("figure")}
    assert {f"target-{name}" for name in review().plan.audit.targets} <= names
