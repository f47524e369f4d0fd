"""The log of the demo: the same counts from a CSV, a workbook, and a file of counts."""

import shutil
from dataclasses import replace
from pathlib import Path

import pytest
import yaml

from evsyn.extraction.load import read_review, read_unit
from evsyn.extraction.unread import unread_files
from evsyn.reporting.audit_page import audit_text
from evsyn.terms import Audience
from tests.extraction.case_log.made_up import workbook_of

DEMO = Path(__file__).parents[3] / "studies" / "demo"
UNIT, LOG = "unit-tarnbeck.yaml", "tarnbeck-cases.csv"


@pytest.fixture(scope="module")
def review():
    return read_review(DEMO)


@pytest.fixture(scope="module")
def checked(review):
    return read_unit(DEMO / UNIT, review.plan)


@pytest.fixture
def folder(tmp_path):
    for name in (UNIT, LOG):
        shutil.copy(DEMO / name, tmp_path)
    return tmp_path


def fields_of(checked):
    return checked.unit.model_dump(exclude={"case_log"})


def test_the_review_says_nothing_of_the_log():
    assert not [one for one in unread_files(DEMO) if LOG in one.message]


def test_a_workbook_says_the_same(folder, review, checked):
    text = (DEMO / LOG).read_text(encoding="utf-8")
    workbook_of(text, folder / "log.xlsx").close()
    unit = folder / UNIT
    unit.write_text(unit.read_text(encoding="utf-8").replace(LOG, "log.xlsx"), encoding="utf-8")
    again = read_unit(unit, review.plan)
    assert fields_of(again) == fields_of(checked)
    assert len(again.cases) == len(checked.cases) == 38


def test_a_file_of_counts_that_says_the_same_gives_the_same_audit(folder, review, checked):
    written = yaml.safe_load((folder / UNIT).read_text(encoding="utf-8"))
    del written["case_log"]
    made = checked.unit.model_dump(mode="json", exclude_none=True)
    for name in ("groups", "flow", "complications", "patients_end", "devices", "devices_end"):
        written[name] = made[name]
    # Dates that the usual loader makes of text are text again.
    written |= {name: str(written[name]) for name in ("frozen_on",)}
    (folder / UNIT).write_text(yaml.safe_dump(written, sort_keys=False), encoding="utf-8")
    counted = read_unit(folder / UNIT, review.plan)
    assert counted.cases == ()
    assert fields_of(counted) == fields_of(checked)
    # A log knows the roles of operators besides, which counts do not.
    silent = replace(checked, findings=(), cases=())
    for audience in Audience:
        assert audit_text(review, counted, audience) == audit_text(review, silent, audience)
