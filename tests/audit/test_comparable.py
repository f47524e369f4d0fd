"""Denominators must be equal; windows decide which verdict may be said."""

import pytest

from evsyn.audit.comparable import Differs, comparable
from evsyn.cells.cell import Question
from evsyn.terms import AS_PRINTED, NOT_STATED
from tests.audit.made_up import PALLIATION, answer, plan, pooled

PLAN = plan()
SUCCESS = Question("success", "intent", "palliation")


def judged(basis, window, *, bases=None, windows=None, question=PALLIATION):
    k = len(bases or windows or "xxxxx")
    table = pooled(question, answer(k), bases=bases, windows=windows).table
    return comparable(basis, window, table, PLAN)


def test_like_with_like():
    found = judged("attempted", "30_days")
    assert found.differs == ()
    assert found.at_all and found.more and found.fewer


@pytest.mark.parametrize(
    ("bases", "told"),
    [
        (["placed"] * 5, (Differs.BASIS,)),
        (["placed", "placed", AS_PRINTED], (Differs.BASIS,)),
        (["attempted", "attempted", "placed"], (Differs.BASES_MIXED,)),
        (["attempted", "attempted", AS_PRINTED], (Differs.BASES_NOT_STATED,)),
        ([AS_PRINTED] * 3, (Differs.BASES_NOT_STATED,)),
        (["attempted", "placed", AS_PRINTED], (Differs.BASES_MIXED, Differs.BASES_NOT_STATED)),
    ],
)
def test_denominators(bases, told):
    found = judged("attempted", "30_days", bases=bases)
    assert found.differs == told
    assert found.at_all is (Differs.BASIS not in told)


@pytest.mark.parametrize(
    ("ours", "theirs", "told", "more", "fewer"),
    [
        ("7_days", ["30_days"] * 3, Differs.WINDOW_SHORTER, True, False),
        ("30_days", ["7_days"] * 3, Differs.WINDOW_LONGER, False, True),
        (NOT_STATED, ["30_days"] * 3, Differs.WINDOWS, True, True),
        ("30_days", [NOT_STATED] * 3, Differs.WINDOWS, True, True),
        (NOT_STATED, [NOT_STATED] * 3, Differs.WINDOWS, True, True),
        ("30_days", ["30_days", "7_days", "30_days"], Differs.WINDOWS, True, True),
        ("30_days", ["follow_up"] * 3, Differs.WINDOWS, True, True),
        ("follow_up", ["follow_up"] * 3, Differs.WINDOW_OPEN, True, True),
    ],
)
def test_windows_of_a_harm(ours, theirs, told, more, fewer):
    found = judged("attempted", ours, windows=theirs)
    assert found.differs == (told,)
    assert (found.more, found.fewer) == (more, fewer)


@pytest.mark.parametrize(
    ("ours", "theirs"), [("at_procedure", "7_days"), ("7_days", "at_procedure")]
)
def test_another_window_of_a_success_says_nothing(ours, theirs):
    found = judged("attempted", ours, windows=[theirs] * 5, question=SUCCESS)
    assert found.differs == (Differs.WINDOW_OF_SUCCESS,)
    assert not found.more and not found.fewer


def test_an_outcome_without_windows_asks_for_none():
    question = Question("reblocked", "intent", "palliation")
    found = judged("placed", NOT_STATED, bases=["placed"] * 5, question=question)
    assert found.differs == ()
