"""An attacker who knows everything but the counts, and reads all that goes outside.

The outside page is written for every set of counts the unit could have; those that give the very
same page cannot be told apart by any reckoning (subtraction, an inverted interval, a percentage,
a place, a ratio, a chance). Wherever a count is not told exactly, three or more must be left.
"""

import json
from collections import defaultdict
from itertools import product
from pathlib import Path

import pytest

from evsyn.audit import unit_audit as auditing
from evsyn.audit.release import LEAST_POSSIBLE
from evsyn.extraction.load import CheckedUnit, read_review, read_unit
from evsyn.extraction.unit import Unit
from evsyn.figures.formats import A4
from evsyn.figures.funnel import funnel_layout
from evsyn.figures.svg import svg_text
from evsyn.reporting.audit_fields import audit_json
from evsyn.reporting.audit_folder import write_audit
from evsyn.reporting.audit_page import audit_text
from evsyn.reporting.target_funnel import target_funnel_of
from evsyn.reporting.told_outside import marks_for, tell_for
from evsyn.terms import Audience

REVIEW = read_review(Path(__file__).parents[2] / "studies" / "demo")
SIZES = {"palliation": 10, "bridge_to_surgery": 9}
FILES = (Path("unit-glade.yaml"), Path("unit-glade-before.yaml"))
KNOWN = {
    "format": 1,
    "unit": "glade",
    "label": "Glade General",
    "invented": True,
    "period": {"from": "2022-04", "to": "2025-03"},
    "frozen_on": "2025-06-30",
    "complete": False,
    "left_out": [{"count": 2, "why": "notes not found"}],
    "follow_up": "at least 90 days",
    "counted_by": "patient",
    "expected_cases": {"count": 21, "according_to": "devices issued"},
}


def made(outcome, counts, *, placed=False, unknown=(0, 0), **fields):
    """Return the unit with these counts by intent, and so many unknown outcomes."""
    of, window = ("attempted", "at_procedure" if outcome == "technical_success" else "30_days")
    groups = []
    for (intent, size), events, lost in zip(SIZES.items(), counts, unknown, strict=True):
        count = {"events": events, "total": size, "unknown": lost, "of": of, "window": window}
        outcomes = {outcome: count}
        if placed and events:
            late = {"events": 0, "total": events, "of": "placed", "window": "30_days"}
            outcomes["migration"] = late
        strata = {"intent": intent}
        groups.append({"strata": strata, "patients": size, "outcomes": outcomes})
    return Unit.model_validate({**KNOWN, "groups": groups, **fields}, strict=False)


@pytest.fixture(autouse=True)
def pooled_once(monkeypatch):
    """The pools do not depend on the counts, so they are made once."""
    kept = {}
    real = auditing.unit_answers

    def answers(review, unit, earlier=None):
        key = tuple(sorted({name for group in unit.groups for name in group.outcomes}))
        if key not in kept:
            kept[key] = real(review, unit, earlier)
        return kept[key]

    monkeypatch.setattr(auditing, "unit_answers", answers)


def figure_of(checked):
    """Return the figure that goes outside, and all that is written in it."""
    mark, short = marks_for(checked, Audience.OUTSIDE)
    tell = tell_for(checked, Audience.OUTSIDE)
    content = target_funnel_of(
        REVIEW, [checked], "perforation", tell=tell, mark=mark, short_mark=short
    )
    return svg_text(funnel_layout(content, A4), 0)


def told_alike(outcome, **fields):
    """Group all counts by the page, text and JSON together, that goes outside."""
    alike = defaultdict(list)
    for counts in product(*(range(size + 1) for size in SIZES.values())):
        checked = CheckedUnit(made(outcome, counts, **fields), ())
        seen = (
            audit_text(REVIEW, checked, Audience.OUTSIDE),
            audit_json(REVIEW, checked, Audience.OUTSIDE),
        )
        alike[seen].append(counts)
    return alike


@pytest.mark.parametrize("outcome", ["perforation", "technical_success"])
def test_no_hidden_count_can_be_worked_back(outcome):
    alike = told_alike(outcome)
    assert len(alike) > 3
    total = sum(SIZES.values())
    for (_, fields), found in alike.items():
        (item,) = json.loads(fields)["counts"]
        wholes = {sum(counts) for counts in found}
        if item["told"] == "exact":
            assert wholes == {item["count"]}
            assert wholes <= {0, total}
            continue
        assert len(wholes) >= LEAST_POSSIBLE
        assert wholes == set(range(item["lowest"], item["highest"] + 1))
        for level in zip(*found, strict=True):
            assert len(set(level)) >= LEAST_POSSIBLE


def test_a_denominator_that_is_itself_a_count_gives_nothing_back():
    alike = told_alike("technical_success", placed=True)
    for (_, fields), found in alike.items():
        told = {item["outcome"]: item for item in json.loads(fields)["counts"]}
        wholes = {sum(counts) for counts in found}
        # That nothing was placed at all, or everything, is told of the stents placed themselves.
        if told["technical_success"]["told"] != "exact":
            assert len(wholes) >= LEAST_POSSIBLE
            assert told["migration"]["total"] is None


def test_dates_roles_and_small_numbers_stay_inside():
    page = audit_text(REVIEW, CheckedUnit(made("perforation", (1, 1)), ()), Audience.OUTSIDE)
    for word in ("2022", "2025", "notes not found", "at least 90 days", "10.5%", "2 of 19"):
        assert word not in page


def test_with_a_release_the_counts_are_exact_and_the_release_is_printed():
    release = {
        "approved_by": "governance lead",
        "on": "2025-07-01",
        "basis": "a talk",
        "levels": True,
    }
    checked = CheckedUnit(made("perforation", (1, 1), release=release), ())
    page = audit_text(REVIEW, checked, Audience.OUTSIDE)
    assert "2 of 19" in page
    said = " ".join(page.split())
    assert "Exact own counts released by governance lead on 2025-07-01: a talk." in said
    for word in ("2022-04", "2025-06-30", "notes not found"):
        assert word not in page


def test_the_figure_that_goes_outside_gives_nothing_back():
    alike = defaultdict(set)
    for counts in product(*(range(size + 1) for size in SIZES.values())):
        checked = CheckedUnit(made("perforation", counts), ())
        alike[figure_of(checked)].add(sum(counts))
    for wholes in alike.values():
        exact = wholes <= {0} or wholes <= {sum(SIZES.values())}
        assert exact or len(wholes) >= LEAST_POSSIBLE
    assert len(alike) > 3


def test_unknown_outcomes_give_nothing_back():
    alike = defaultdict(list)
    for lost in ((1, 0), (0, 2), (2, 1)):
        for counts in product(range(SIZES["palliation"] - lost[0] + 1), (0, 5)):
            checked = CheckedUnit(made("perforation", counts, unknown=lost), ())
            seen = (audit_json(REVIEW, checked, Audience.OUTSIDE), figure_of(checked))
            alike[seen].append((sum(counts), sum(lost)))
    for (fields, _), found in alike.items():
        events, unknown = ({*side} for side in zip(*found, strict=True))
        (item,) = json.loads(fields)["counts"]
        if item["told"] != "exact":
            assert len(events) >= LEAST_POSSIBLE
        assert len(unknown) >= LEAST_POSSIBLE


def test_unknown_outcomes_are_drawn_neither_as_none_nor_as_a_flag():
    drawn = figure_of(CheckedUnit(made("perforation", (0, 0), unknown=(9, 8)), ()))
    assert "own count withheld" in drawn
    assert "of 19" not in drawn


def test_the_lines_of_the_file_stay_inside(tmp_path):
    # A note or an unknown outcome is a line more, and moves the line of every count below it.
    path, seen = tmp_path / "unit-glade.yaml", set()
    for note in ("", f"\n{16 * ' '}note: the fourth case went to theatre"):
        groups = f"""
          - strata: {{intent: palliation}}
            patients: 19
            outcomes:
              technical_success:
                events: 18
                total: 19
                of: attempted
                window: at_procedure{note}
              perforation: {{events: 0, total: 19, of: attempted, window: 30_days}}"""
        head = {name: value for name, value in KNOWN.items() if name != "groups"}
        lines = [f"{name}: {json.dumps(value)}" for name, value in head.items()]
        path.write_text("\n".join([*lines, f"groups:{groups}\n"]), encoding="utf-8")
        seen.add(figure_of(read_unit(path, REVIEW.plan)))
    assert len(seen) == 1
    assert "unit-glade" not in seen.pop()


def test_two_released_periods_go_out_undated_each_with_its_release(tmp_path):
    first = {
        "approved_by": "governance lead",
        "on": "2022-07-01",
        "basis": "a meeting",
        "levels": True,
    }
    second = {
        "approved_by": "medical director",
        "on": "2025-07-01",
        "basis": "a talk",
        "levels": True,
    }
    before = {"from": "2019-04", "to": "2022-03"}
    now = CheckedUnit(made("perforation", (1, 1), release=second), ())
    then = CheckedUnit(made("perforation", (2, 0), release=first, period=before), ())
    written = write_audit(
        tmp_path, REVIEW, now, Audience.OUTSIDE, then, command="evsyn audit", unit_files=FILES
    )
    texts = {path.name: path.read_text(encoding="utf-8") for path in written}
    for name, text in texts.items():
        for month in ("2019-04", "2022-03", "2022-04", "2025-03"):
            assert month not in text, name
    page = " ".join(texts["glade-outside.txt"].split())
    for said in ("governance lead on 2022-07-01", "medical director on 2025-07-01"):
        assert said in page
        assert said in texts["glade-outside.json"]
    drawn = texts["glade-outside-target-perforation.svg"]
    assert "Glade General, this period: 2 of 19" in drawn
    assert "Glade General, the period before: 2 of 19" in drawn


def test_a_release_without_levels_shows_the_whole_alone():
    release = {"approved_by": "governance lead", "on": "2025-07-01", "basis": "a talk"}
    checked = CheckedUnit(made("perforation", (1, 1), release=release), ())
    page = audit_text(REVIEW, checked, Audience.OUTSIDE)
    assert "2 of 19" in page
    assert "released by governance lead" in " ".join(page.split())
    for word in ("1 of 10", "1 of 9", "palliation"):
        assert word not in page
