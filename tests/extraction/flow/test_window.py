"""Which cases an outcome counts within its window."""

import pytest

from evsyn.extraction.flow.attributes import Attributes
from evsyn.extraction.flow.window import counted_in
from tests.extraction.flow.made_up import plan

NEVER, EARLY, EVER = set(), {"early", "both"}, {"early", "late", "both"}


@pytest.mark.parametrize(
    ("window", "surely", "at_most"),
    [
        ("30_days", EARLY, EARLY),
        ("follow_up", EVER, EVER),
        ("at_procedure", NEVER, EARLY),
        ("90_days", EARLY, EVER),
        ("before_surgery", NEVER, EVER),
        ("not_stated", NEVER, EVER),
    ],
)
def test_a_complication_by_its_name(window, surely, at_most):
    counted = counted_in("perforation", window, Attributes(plan()))
    assert counted.surely.allowed == (("perforation", frozenset(surely)),)
    assert counted.at_most.allowed == (("perforation", frozenset(at_most)),)


@pytest.mark.parametrize(
    ("outcome", "window", "surely", "at_most"),
    [
        ("success", "at_procedure", {"placed", "relieved"}, {"placed", "relieved"}),
        ("success", "not_stated", {"placed", "relieved"}, {"placed", "relieved"}),
        ("stoma_avoidance", "follow_up", {"no"}, {"no"}),
        ("stoma_avoidance", "30_days", {"no"}, {"no", "yes"}),
    ],
)
def test_a_stage_or_the_want_of_a_step(outcome, window, surely, at_most):
    counted = counted_in(outcome, window, Attributes(plan()))
    assert [dict(one.allowed).popitem()[1] for one in (counted.surely, counted.at_most)] == [
        surely,
        at_most,
    ]


def test_an_outcome_of_which_the_course_says_nothing():
    assert counted_in("fever", "30_days", Attributes(plan())) is None
