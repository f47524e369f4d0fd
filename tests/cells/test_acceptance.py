"""Whether the plan accepts a count, and what must be said of it."""

import pytest

from evsyn.cells.acceptance import Accepted, Refused, judge
from evsyn.cells.cell import Mark
from tests.cells.builders import arm, count, plan_of, study_of


def judged(counted, outcome="leak", patients=50, plan=None, **more):
    made = arm("x", patients, **{outcome: counted}, **more)
    return judge(study_of("a", made).arms[0], outcome, plan or plan_of())


@pytest.mark.parametrize(
    ("of", "window", "marks", "rank"),
    [
        ("attempted", "30_days", set(), (0, 0)),
        ("placed", "30_days", {Mark.OTHER_BASIS}, (1, 0)),
        ("as_printed", "30_days", {Mark.BASIS_NOT_STATED}, (2, 0)),
        ("attempted", "1_year", {Mark.OTHER_WINDOW}, (0, 1)),
        ("attempted", "not_stated", {Mark.WINDOW_NOT_STATED}, (0, 2)),
        ("placed", "1_year", {Mark.OTHER_BASIS, Mark.OTHER_WINDOW}, (1, 1)),
    ],
)
def test_what_is_accepted_and_marked(of, window, marks, rank):
    found = judged(count(3, 50, of, window))
    assert isinstance(found, Accepted)
    assert (found.marks, found.rank) == (marks, rank)


@pytest.mark.parametrize(
    ("outcome", "of", "window", "words"),
    [
        ("leak", "resected", "30_days", "counted over patients resected, which the plan does not"),
        ("leak", "attempted", "ever", "counted at any time, a window the plan does not accept"),
        ("success", "placed", "not_stated", "counted over patients placed, which the plan does"),
        ("success", "attempted", "30_days", "counted within 30 days, a window the plan does not"),
    ],
)
def test_what_is_known_and_not_accepted_is_refused(outcome, of, window, words):
    found = judged(count(3, 50, of, window), outcome)
    assert isinstance(found, Refused)
    assert found.reason.startswith(words)


def test_an_outcome_without_windows_asks_for_none():
    found = judged(count(3, 50, "attempted", "not_stated"), "success")
    assert (found.marks, found.rank) == (set(), (0, 0))


def test_assumed_totals_and_derived_counts_are_marked():
    assert judged(count(3, 50, assumed=True)).marks == {Mark.ASSUMED}
    assert judged(count(3, 50, derived="1 + 2 = 3")).marks == {Mark.DERIVED}


# Up to 1.1 procedures a patient enter, marked; the limit itself is within.
@pytest.mark.parametrize(
    ("patients", "procedures", "total", "unit", "enters"),
    [
        (50, None, 55, "procedure", True),
        (50, None, 56, "procedure", False),
        (50, 55, 50, "procedure", True),
        (50, 56, 50, "procedure", False),
        (10, 11, 11, "procedure", True),
        (447, 463, 463, "procedure", True),
        (183, 213, 213, "procedure", False),
        (50, 50, 80, "device", False),
        (50, 50, 52, "device", True),
    ],
)
def test_counts_by_procedure(patients, procedures, total, unit, enters):
    counted = count(3, total, counted_by=unit)
    found = judged(counted, patients=patients, **({"procedures": procedures} if procedures else {}))
    assert isinstance(found, Accepted) is enters
    if enters:
        assert found.marks == {Mark.PER_PROCEDURE}
    else:
        assert found.reason.endswith(f"in {patients} patients, more than 1.1 a patient")


def test_the_plan_sets_the_limit():
    counted = count(3, 60, counted_by="procedure")
    assert isinstance(judged(counted), Refused)
    wide = plan_of(pooling={"procedures_per_patient": 1.2})
    assert isinstance(judged(counted, plan=wide), Accepted)


def test_patients_are_never_crowded():
    assert judged(count(3, 50), procedures=99).marks == set()
